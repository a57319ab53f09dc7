// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
// One stop at a time, for a phone in wet hands: what a row of the table says, on a screen of its own, with the live
// map drawn close beside it. All of it is copied as nodes, never as text that is read as markup.
(function () {
  'use strict';
  const { plan, all, scroll, pick, placeOf, goToMark, goToRow, setZoom, zoom } = castplan;
  const byId = (id) => document.getElementById(id);
  const one = byId('one');
  const frame = scroll.parentNode;
  const home = frame.parentNode;
  const shownAcross = 320;  // metres of the lake on the small map
  let rows = [];
  let at = 0;
  let before = null;  // zoom and middle of the map as it was

  const rowsShown = () => all('section.phase:not(.away) tbody.spot-rows');
  const name = (row) => row.querySelector('a.number').textContent.split(',')[0];

  // Copies what the row holds of a part; a part that it lacks hides its line.
  function fill(row, slot) {
    const parts = Array.from(row.querySelectorAll('[data-part="' + slot.dataset.slot + '"]'));
    slot.replaceChildren();
    parts.forEach((part, number) => {
      if (number > 0) slot.append(document.createElement('br'), 'to ');
      slot.append(...copies(part.childNodes));
    });
    slot.parentNode.classList.toggle('away', parts.length === 0);
  }

  const copies = (nodes) => Array.from(nodes, (each) => each.cloneNode(true));

  // The page's advisory, a paragraph a reason.
  function advisories() {
    return all('.advisory li').map((reason) => {
      const words = document.createElement('p');
      words.className = 'caution';
      words.append(...copies(reason.childNodes));
      return words;
    });
  }

  function drawMap(row) {
    const { mark } = pick(row.id);
    setZoom(plan.width_m / shownAcross, ...placeOf(mark));
  }

  function show(number) {
    at = Math.max(0, Math.min(rows.length - 1, number));
    const row = rows[at];
    byId('one-title').textContent = name(row);
    byId('one-count').textContent = 'Stop ' + (at + 1) + ' of ' + rows.length + ', best first';
    for (const slot of all('[data-slot]')) fill(row, slot);
    byId('one-cautions').replaceChildren(...advisories(), ...copies(row.querySelectorAll('.caution')));
    one.querySelector('[data-one="back"]').setAttribute('aria-disabled', String(at === 0));
    one.querySelector('[data-one="next"]').setAttribute('aria-disabled', String(at === rows.length - 1));
    one.scrollTop = 0;
    drawMap(row);
  }

  function step(by) {
    const wanted = at + by;
    if (wanted < 0 || wanted >= rows.length) {
      byId('one-said').textContent = by > 0 ? 'This is the last stop' : 'This is the first stop';
      return;
    }
    show(wanted);
    const sounder = one.querySelector('[data-slot="sounder"]').innerText;
    byId('one-said').textContent = byId('one-count').textContent + ': ' + name(rows[at]) + ', sounder ' + sounder;
  }

  function open() {
    rows = rowsShown();
    if (rows.length === 0) return;
    before = [zoom(), (scroll.scrollLeft + scroll.clientWidth / 2) / castplan.world.clientWidth,
              (scroll.scrollTop + scroll.clientHeight / 2) / castplan.world.clientHeight];
    const fixed = copies(document.querySelector('.fixed p').childNodes);
    for (const node of fixed) {
      if (node.querySelectorAll) for (const part of [node, ...node.querySelectorAll('[id]')]) part.removeAttribute('id');
    }
    byId('one-fixed').replaceChildren(...fixed);
    byId('one-map').append(frame);
    frame.inert = true;
    one.showModal();
    show(Math.max(0, rows.findIndex((row) => row.classList.contains('picked'))));
    byId('one-title').focus();
  }

  let after = goToRow;
  one.addEventListener('close', () => {
    frame.inert = false;
    home.insertBefore(frame, home.querySelector('.under'));
    setZoom(...before);
    after(rows[at].id);
    after = goToRow;
  });

  async function copyPlace() {
    const text = Array.from(rows[at].querySelectorAll('[data-part="place"]'), (each) => each.textContent).join(' to ');
    let done = true;
    try {
      await navigator.clipboard.writeText(text);
    } catch (error) {
      getSelection().selectAllChildren(one.querySelector('[data-slot="place"]'));
      done = document.execCommand('copy');
    }
    byId('one-said').textContent = done ? 'Copied: ' + text : 'Not copied: this browser does not let pages copy';
  }

  const acts = {
    back: () => step(-1),
    next: () => step(1),
    table: () => one.close(),
    map: () => {
      after = goToMark;
      one.close();
    },
    copy: copyPlace
  };
  for (const button of all('[data-one]')) button.addEventListener('click', acts[button.dataset.one]);
  // the advisory's full text stands on the page behind
  byId('one-fixed').addEventListener('click', (event) => {
    if (!event.target.closest('a')) return;
    after = () => byId('advisory').scrollIntoView();
    one.close();
  });
  one.addEventListener('keydown', (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const wanted = { ArrowLeft: () => step(-1), ArrowRight: () => step(1), Home: () => step(-at),
                     End: () => step(rows.length - 1 - at) }[event.key];
    if (!wanted) return;
    wanted();
    event.preventDefault();
  });
  window.addEventListener('beforeprint', () => one.close());
  byId('one-open').addEventListener('click', open);
  if (!one.showModal || all('tbody.spot-rows').length === 0) byId('one-open').classList.add('away');
  castplan.start();
})();
