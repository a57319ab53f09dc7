// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
'use strict';
(() => {
  document.documentElement.classList.add('with-script');
  const field = document.getElementById('find');
  const found = document.getElementById('found');
  const lakes = Array.from(document.querySelectorAll('.lake'), (row) => ({ row, name: plain(row.querySelector('a').textContent) }));
  // letters without their marks, so that "a" finds them all
  function plain(text) {
    return text.normalize('NFD').replace(/\p{M}/gu, '').toLowerCase();
  }
  function show() {
    const words = plain(field.value).split(/\s+/).filter(Boolean);
    let count = 0;
    for (const lake of lakes) {
      lake.row.hidden = !words.every((word) => lake.name.includes(word));
      count += lake.row.hidden ? 0 : 1;
    }
    found.textContent = words.length === 0 ? lakes.length + (lakes.length === 1 ? ' lake' : ' lakes') : count + ' of ' + lakes.length;
  }
  field.addEventListener('input', show);
})();
