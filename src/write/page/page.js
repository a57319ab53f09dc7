// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
// What the parts of the script share.
const castplan = (function () {
  'use strict';
  const plan = JSON.parse(document.getElementById('plan').textContent);
  const scroll = document.getElementById('scroll');
  const world = document.getElementById('world');
  const said = document.getElementById('said');
  const all = (selector) => Array.from(document.querySelectorAll(selector));
  document.documentElement.classList.add('with-script');

  // Zoom widens the world inside its window; the browser's own scrolling is the panning, so touch, wheel, keys and
  // focus all work as everywhere else.
  const nearest = 1 / 3;  // metres a pixel at the closest zoom
  let zoom = 1;

  function mostZoom() {
    return Math.max(1, Math.min(24, plan.width_m / (nearest * scroll.clientWidth)));
  }

  function roundBelow(room) {
    const ten = Math.pow(10, Math.floor(Math.log10(room)));
    return room >= 5 * ten ? 5 * ten : room >= 2 * ten ? 2 * ten : ten;
  }

  function drawScales() {
    const units = { m: [1, 1000, 'km'], ft: [0.3048, 5280, 'mi'] };
    for (const bar of all('.scale')) {
      const [metres, many, large] = units[bar.dataset.unit];
      const shown = plan.width_m / zoom / metres;
      const length = 0.28 * shown >= many ? roundBelow(0.28 * shown / many) * many : roundBelow(0.28 * shown);
      bar.style.width = (100 * length / shown) + '%';
      bar.textContent = length >= many ? length / many + ' ' + large : length + ' ' + bar.dataset.unit;
    }
  }

  function setZoom(wanted, x, y) {
    const cx = x === undefined ? (scroll.scrollLeft + scroll.clientWidth / 2) / world.clientWidth : x;
    const cy = y === undefined ? (scroll.scrollTop + scroll.clientHeight / 2) / world.clientHeight : y;
    zoom = Math.max(1, Math.min(mostZoom(), wanted));
    world.style.width = (100 * zoom) + '%';
    scroll.parentNode.classList.toggle('close', zoom > 2);
    scroll.scrollLeft = cx * world.clientWidth - scroll.clientWidth / 2;
    scroll.scrollTop = cy * world.clientHeight - scroll.clientHeight / 2;
    drawScales();
    castplan.placeButtons();
  }

  const moves = {
    in: () => setZoom(zoom * 1.5),
    out: () => setZoom(zoom / 1.5),
    all: () => setZoom(1),
    north: () => scroll.scrollBy(0, -scroll.clientHeight / 3),
    south: () => scroll.scrollBy(0, scroll.clientHeight / 3),
    west: () => scroll.scrollBy(-scroll.clientWidth / 3, 0),
    east: () => scroll.scrollBy(scroll.clientWidth / 3, 0)
  };
  for (const button of all('[data-move]')) button.addEventListener('click', moves[button.dataset.move]);
  scroll.addEventListener('keydown', (event) => {
    const name = { '+': 'in', '=': 'in', '-': 'out', '0': 'all' }[event.key];
    if (!name || event.ctrlKey || event.metaKey || event.altKey) return;
    moves[name]();
    event.preventDefault();
  });

  // A spot or a pass has a row, a button on the map and a line; choosing one marks all three.
  function pick(id) {
    const [kind, tail] = [id.slice(0, 4), id.slice(5)];
    const mark = document.getElementById(kind + '-mark-' + tail);
    const line = document.getElementById((kind === 'pass' ? 'lane-' : 'cast-') + tail);
    for (const old of all('.picked')) old.classList.remove('picked');
    for (const part of [document.getElementById(id), mark, line]) {
      if (part) part.classList.add('picked');
    }
    for (const button of all('button.spot, button.pass-mark')) button.setAttribute('aria-pressed', String(button === mark));
    said.textContent = mark ? mark.textContent.split(';')[0] + ' chosen' : '';
    return { mark: mark, link: document.getElementById(kind + '-link-' + tail) };
  }

  // The share of the map's width and height at which a button's boat place lies.
  const placeOf = (mark) => [parseFloat(mark.style.left) / 100, parseFloat(mark.style.top) / 100];

  function goToRow(id) {
    const link = pick(id).link;
    link.focus({ preventScroll: true });
    document.getElementById(id).scrollIntoView({ block: 'center' });
  }
  for (const button of all('button.spot, button.pass-mark')) {
    button.addEventListener('click', () => goToRow(button.dataset.spot || button.dataset.pass));
  }

  // Shows a row's place on the map and puts the focus on its button.
  function goToMark(row) {
    const mark = pick(row).mark;
    if (zoom > 1) setZoom(zoom, ...placeOf(mark));
    mark.focus({ preventScroll: zoom > 1 });
    if (zoom > 1) scroll.scrollIntoView({ block: 'nearest' });
  }
  for (const link of all('a.number')) {
    link.addEventListener('click', (event) => {
      event.preventDefault();
      goToMark(link.closest('tbody').id);
    });
  }

  function showPhase(number) {
    for (const part of all('[data-phase]')) part.classList.toggle('away', part.dataset.phase !== String(number));
    const holds = document.querySelector('section.phase[data-phase="' + number + '"] .temperatures');
    if (holds) document.getElementById('fixed-holds').textContent = holds.textContent;
    castplan.placeButtons();
  }
  for (const choice of all('input[name="phase"]')) {
    choice.addEventListener('change', () => {
      showPhase(choice.value);
      said.textContent = 'Shown: ' + choice.parentNode.textContent.trim();
    });
  }

  // Sentences keep the unit that the plan was made in.
  function showUnits(unit) {
    document.body.classList.toggle('m', unit === 'm');
    document.body.classList.toggle('ft', unit === 'ft');
  }
  for (const choice of all('input[name="units"]')) {
    choice.addEventListener('change', () => {
      showUnits(choice.value);
      said.textContent = 'Shown in ' + choice.parentNode.textContent.trim();
    });
  }

  function start() {
    for (const box of all('input[data-kind]')) {
      const show = () => {
        for (const part of all('.frame [data-kind="' + box.dataset.kind + '"]')) part.classList.toggle('away', !box.checked);
      };
      box.addEventListener('change', () => {
        show();
        castplan.placeButtons();
      });
      show();
    }
    // a reload may bring back an older choice
    for (const choice of all('input[name="phase"]')) if (choice.checked) showPhase(choice.value);
    for (const choice of all('input[name="units"]')) if (choice.checked) showUnits(choice.value);
    castplan.placeButtons();
    drawScales();
    window.addEventListener('resize', () => setZoom(zoom));
  }

  return { plan, all, scroll, world, pick, placeOf, goToMark, goToRow, setZoom, start, zoom: () => zoom };
})();
