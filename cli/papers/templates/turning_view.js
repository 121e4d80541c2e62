// The wheel in three dimensions on a plain canvas: a depth buffer in memory, no WebGL, no network.
(() => {
  "use strict";
  const box = document.getElementById("turning");
  const canvas = box.querySelector("canvas"), ink = canvas.getContext("2d");
  const pull = box.querySelector("[name=pull]"), near = box.querySelector("[name=near]");
  const beads = box.querySelector("[name=beads]"), cut = box.querySelector("[name=cut]");
  const told = box.querySelector("output"), reset = box.querySelector("button");
  const wheel = JSON.parse(document.getElementById("turning-mesh").textContent);
  for (const part of wheel.parts) for (const net of [part, part.section]) { smooth(net); join(net); }

  // Normals of a point: mean of its triangles' (faces share no points, so edges stay sharp).
  function smooth(part) {
    const p = part.points, t = part.triangles, n = new Float32Array(p.length);
    for (let i = 0; i < t.length; i += 3) {
      const a = 3 * t[i], b = 3 * t[i + 1], c = 3 * t[i + 2];
      const ux = p[b] - p[a], uy = p[b + 1] - p[a + 1], uz = p[b + 2] - p[a + 2];
      const vx = p[c] - p[a], vy = p[c + 1] - p[a + 1], vz = p[c + 2] - p[a + 2];
      const x = uy * vz - uz * vy, y = uz * vx - ux * vz, z = ux * vy - uy * vx;
      for (const k of [a, b, c]) { n[k] += x; n[k + 1] += y; n[k + 2] += z; }
    }
    for (let k = 0; k < n.length; k += 3) {
      const long = Math.hypot(n[k], n[k + 1], n[k + 2]) || 1;
      n[k] /= long; n[k + 1] /= long; n[k + 2] /= long;
    }
    part.normals = n;
    part.seen = new Float32Array(p.length);
    part.light = new Float32Array(p.length / 3);
  }

  // Lines within a face between two triangles: where one of them is turned away, the face ends to the eye.
  function join(net) {
    const t = net.triangles, open = new Map(), joints = [];
    for (let i = 0; i < t.length; i++) {
      const a = t[i], b = t[i % 3 === 2 ? i - 2 : i + 1];
      const key = Math.min(a, b) * 1e6 + Math.max(a, b), other = open.get(key);
      if (other === undefined) open.set(key, i); else joints.push(a, b, Math.floor(other / 3), Math.floor(i / 3));
    }
    net.joints = joints;
    net.facing = new Uint8Array(t.length / 3);
  }

  const times = (a, b) => [0, 1, 2].map(i => [0, 1, 2].map(j =>
    a[i][0] * b[0][j] + a[i][1] * b[1][j] + a[i][2] * b[2][j]));
  const aboutX = w => [[1, 0, 0], [0, Math.cos(w), -Math.sin(w)], [0, Math.sin(w), Math.cos(w)]];
  const aboutY = w => [[Math.cos(w), 0, Math.sin(w)], [0, 1, 0], [-Math.sin(w), 0, Math.cos(w)]];
  let turn, wanted = false, last = null, seen = null;

  function draw() {
    wanted = false;
    const sharp = Math.max(2, Math.min(3, window.devicePixelRatio || 1));
    const dense = last ? 1 : sharp;  // coarser while it is dragged, so that it follows the finger
    const wide = Math.max(2, Math.round(canvas.clientWidth * dense));
    const high = Math.max(2, Math.round(canvas.clientHeight * dense));
    canvas.width = wide; canvas.height = high;
    const image = ink.createImageData(wide, high), pixels = new Uint32Array(image.data.buffer);
    const depth = new Float32Array(wide * high).fill(-1e9), owner = new Uint8Array(wide * high);
    const apart = +pull.value, m = turn, open = cut.checked;
    const lamp = [0, 1, 2].map(i => -0.35 * m[0][i] + 0.5 * m[1][i] + 0.79 * m[2][i]);
    const half = way => wheel.radius + apart * wheel.row * Math.abs(m[way][2]);
    const scale = +near.value * 0.47 * Math.min(wide / half(0), high / half(1));
    const shown = wheel.parts.filter(part => !part.bead || (apart <= 0.01 && beads.checked));
    for (const part of shown) {
      const number = wheel.parts.indexOf(part) + 1;
      place(part, part);
      fill(part, part.colour, number, open);
      if (!open) continue;
      place(part.section, part);
      part.section.light.fill(1.12);  // a cut face is lit alike from everywhere
      fill(part.section, part.colour, number, false);
    }
    for (const part of shown) {
      lines(part, open);
      if (open) lines(part.section, false);
    }
    ink.putImageData(image, 0, 0);
    seen = {owner, wide, dense};

    function place(net, part) {
      const p = net.points, n = net.normals, s = net.seen, light = net.light;
      const [dx, dy, dz] = part.shift.map(v => v * apart);
      for (let k = 0; k < p.length; k += 3) {
        const x = p[k] + dx, y = p[k + 1] + dy, z = p[k + 2] + dz - wheel.middle;
        s[k] = wide / 2 + scale * (m[0][0] * x + m[0][1] * y + m[0][2] * z);
        s[k + 1] = high / 2 - scale * (m[1][0] * x + m[1][1] * y + m[1][2] * z);
        s[k + 2] = scale * (m[2][0] * x + m[2][1] * y + m[2][2] * z);
        light[k / 3] = 0.5 + 0.56 * Math.max(0, lamp[0] * n[k] + lamp[1] * n[k + 1] + lamp[2] * n[k + 2]);
      }
    }

    function fill(net, colour, number, half) {
      const s = net.seen, p = net.points, t = net.triangles, [red, green, blue] = colour;
      for (let i = 0; i < t.length; i += 3) {
        const a = t[i], b = t[i + 1], c = t[i + 2];
        const ax = s[3 * a], ay = s[3 * a + 1], az = s[3 * a + 2];
        const bx = s[3 * b], by = s[3 * b + 1], bz = s[3 * b + 2];
        const cx = s[3 * c], cy = s[3 * c + 1], cz = s[3 * c + 2];
        const area = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax);
        net.facing[i / 3] = area < 0 ? 1 : 0;
        if (area >= 0) continue;  // y points down: a face turned to the eye runs clockwise
        const ya = p[3 * a + 1], yb = p[3 * b + 1], yc = p[3 * c + 1];
        if (half && ya > 0 && yb > 0 && yc > 0) continue;
        const y0 = Math.max(0, Math.ceil(Math.min(ay, by, cy)));
        const y1 = Math.min(high - 1, Math.floor(Math.max(ay, by, cy)));
        const x0 = Math.max(0, Math.ceil(Math.min(ax, bx, cx)));
        const x1 = Math.min(wide - 1, Math.floor(Math.max(ax, bx, cx)));
        const la = net.light[a], lb = net.light[b], lc = net.light[c];
        const ux = (by - cy) / area, vx = (cy - ay) / area;  // what a step to the right adds
        for (let y = y0; y <= y1; y++) {
          let u = ((bx - x0) * (cy - y) - (by - y) * (cx - x0)) / area;
          let v = ((cx - x0) * (ay - y) - (cy - y) * (ax - x0)) / area;
          for (let x = x0, at = y * wide + x0; x <= x1; x++, at++, u += ux, v += vx) {
            const w = 1 - u - v;
            if (u < -1e-6 || v < -1e-6 || w < -1e-6) continue;
            const z = u * az + v * bz + w * cz;
            if (z <= depth[at] || (half && u * ya + v * yb + w * yc > 0)) continue;
            depth[at] = z; owner[at] = number;
            const light = u * la + v * lb + w * lc;
            pixels[at] = 0xff000000 | (Math.min(255, blue * light) << 16) |
              (Math.min(255, green * light) << 8) | Math.min(255, red * light);
          }
        }
      }
    }

    // The solid's own edges, and where a round face turns away from the eye.
    function lines(net, half) {
      for (const edge of net.edges) {
        for (let i = 1; i < edge.length; i++) line(net, edge[i - 1], edge[i], half);
      }
      const j = net.joints;
      for (let i = 0; i < j.length; i += 4) {
        if (net.facing[j[i + 2]] !== net.facing[j[i + 3]]) line(net, j[i], j[i + 1], half);
      }
    }

    function line(net, a, b, half) {
      const s = net.seen, p = net.points, ya = p[3 * a + 1], yb = p[3 * b + 1];
      if (half && ya > 0 && yb > 0) return;
      const ax = s[3 * a], ay = s[3 * a + 1], az = s[3 * a + 2];
      const dx = s[3 * b] - ax, dy = s[3 * b + 1] - ay, dz = s[3 * b + 2] - az;
      const steps = Math.max(1, Math.ceil(Math.max(Math.abs(dx), Math.abs(dy))));
      for (let i = 0; i <= steps; i++) {
        const f = i / steps;
        if (half && ya + f * (yb - ya) > 1e-3) continue;
        const x = Math.round(ax + f * dx), y = Math.round(ay + f * dy);
        if (x < 1 || y < 1 || x >= wide - 2 || y >= high - 2) continue;
        const at = y * wide + x, here = az + f * dz + 0.004 * wheel.radius * scale;
        // an edge lies on its faces: it is seen if none of the pixels around it is nearer
        if (here < depth[at] && here < depth[at - 1] && here < depth[at + 1] &&
            here < depth[at - wide] && here < depth[at + wide]) continue;
        pixels[at] = 0xff282828;
        if (dense > 1) pixels[at + (Math.abs(dx) > Math.abs(dy) ? wide : 1)] = 0xff282828;
      }
    }
  }

  // The name of what lies below the finger.
  function tell(e) {
    if (!seen) return;
    const x = Math.round(e.offsetX * seen.dense), y = Math.round(e.offsetY * seen.dense);
    const part = wheel.parts[(seen.owner[y * seen.wide + x] || 0) - 1];
    told.textContent = part ? part.title : "\u00a0";
  }

  function again() { if (!wanted) { wanted = true; requestAnimationFrame(draw); } }
  function by(right, down) { turn = times(times(aboutX(down), aboutY(right)), turn); again(); }
  function start() {
    turn = wheel.start.map(row => row.slice());
    pull.value = 0; near.value = 1; cut.checked = false;
    again();
  }

  canvas.addEventListener("pointerdown", e => { tell(e); last = e; canvas.setPointerCapture(e.pointerId); });
  canvas.addEventListener("pointermove", e => {
    if (!last) { tell(e); return; }
    by((e.clientX - last.clientX) / 120, (e.clientY - last.clientY) / 120);
    last = e;
  });
  for (const end of ["pointerup", "pointercancel"]) {
    canvas.addEventListener(end, () => { last = null; again(); });
  }
  canvas.addEventListener("wheel", e => {  // unless the view is held, the page scrolls
    if (!last && document.activeElement !== canvas) return;
    e.preventDefault();
    near.value = +near.value * Math.exp(-e.deltaY / 600);
    again();
  }, {passive: false});
  canvas.addEventListener("keydown", e => {
    const step = {ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1]}[e.key];
    if (step) { e.preventDefault(); by(step[0] * 0.15, step[1] * 0.15); }
  });
  for (const input of [pull, near, cut, beads]) input.addEventListener("input", again);
  reset.addEventListener("click", start);
  window.addEventListener("resize", again);
  box.hidden = false;
  start();
})();
