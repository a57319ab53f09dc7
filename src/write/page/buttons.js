// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
// Numbered buttons stand apart at any width and zoom. The page comes with places for a wide screen; these are found
// again for the pixels there are: behind the boat, away from the cast, else turned aside, else further out. A line
// leads from each button to its boat place.
castplan.placeButtons = (function () {
  'use strict';
  const { all, world, placeOf } = castplan;
  const leads = document.getElementById('leads');
  const lift = { first: 26, step: 9, last: 320 };
  const turns = [0];
  for (let turn = 20; turn <= 180; turn += 20) turns.push(turn, -turn);
  const gap = 3;
  const dot = 7;  // half of what a boat place and its surroundings need
  const furtherForDots = 40;  // pixels that are worth going, not to stand on another's boat place

  const apart = (a, b) => Math.abs(a.x - b.x) >= a.w + b.w + gap || Math.abs(a.y - b.y) >= a.h + b.h + gap;

  function standing(mark, far, turn) {
    const angle = (mark.away + turn) * Math.PI / 180;
    const [dx, dy] = [far * Math.sin(angle), -far * Math.cos(angle)];
    return { ...mark, dx, dy, x: mark.px + dx, y: mark.py + dy };
  }

  function freePlace(mark, fits, taken, dots) {
    let free = null;
    for (let far = lift.first; far <= lift.last; far += lift.step) {
      if (free && far > free.far + furtherForDots) return free.spot;
      for (const turn of turns) {
        const spot = standing(mark, far, turn);
        if (!fits(spot) || !taken.every((other) => apart(spot, other))) continue;
        if (dots.every((other) => apart(spot, other))) return spot;
        free = free || { spot, far };
      }
    }
    return free ? free.spot : standing(mark, lift.first, 0);
  }

  function draw(spots, width, height) {
    const lines = spots.map((each) => 'M' + each.x.toFixed(1) + ' ' + each.y.toFixed(1) + 'L' + each.px.toFixed(1) + ' ' + each.py.toFixed(1));
    leads.setAttribute('viewBox', '0 0 ' + width + ' ' + height);
    for (const path of leads.children) path.setAttribute('d', lines.join(''));
  }

  return function () {
    const [width, height] = [world.clientWidth, world.clientHeight];
    const shown = all('.frame button.spot').concat(all('.frame button.pass-mark')).filter((each) => each.offsetWidth > 0);
    const marks = shown.map((button) => {
      const [left, top] = placeOf(button);
      return { px: left * width, py: top * height, w: button.offsetWidth / 2, h: button.offsetHeight / 2,
               away: Number(button.dataset.away) };
    });
    const dots = marks.map((mark) => ({ x: mark.px, y: mark.py, w: dot, h: dot }));
    const fits = (spot) => spot.x >= spot.w + gap && spot.x <= width - spot.w - gap &&
      spot.y >= spot.h + gap && spot.y <= height - spot.h - gap;
    const taken = [];
    for (const mark of marks) taken.push(freePlace(mark, fits, taken, dots));
    taken.forEach((spot, at) => {
      shown[at].style.setProperty('--dx', spot.dx.toFixed(1) + 'px');
      shown[at].style.setProperty('--dy', spot.dy.toFixed(1) + 'px');
    });
    draw(taken, width, height);
  };
})();
