// The wheel in three dimensions on a plain canvas: a depth buffer in memory, no WebGL, no network.
(() => {
  "use strict";
  const box = document.getElementById("turning");
  const canvas = box.querySelector("canvas"), ink = canvas.getContext("2d");
  const pull = box.querySelector("[name=pull]"), near = box.querySelector("[name=near]");
  const beads = box.querySelector("[name=beads]"), reset = box.querySelector("button");
  const wheel = JSON.parse(document.getElementById("turning-mesh").textContent);
  for (const part of wheel.parts) smooth(part);

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

  const times = (a, b) => [0, 1, 2].map(i => [0, 1, 2].map(j =>
    a[i][0] * b[0][j] + a[i][1] * b[1][j] + a[i][2] * b[2][j]));
  const aboutX = w => [[1, 0, 0], [0, Math.cos(w), -Math.sin(w)], [0, Math.sin(w), Math.cos(w)]];
  const aboutY = w => [[Math.cos(w), 0, Math.sin(w)], [0, 1, 0], [-Math.sin(w), 0, Math.cos(w)]];
  let turn, wanted = false, last = null;

  function draw() {
    wanted = false;
    const sharp = Math.min(2, Math.max(1.5, window.devicePixelRatio || 1));
    const dense = last ? 1 : sharp;  // coarser while it is dragged, so that it follows the finger
    const wide = Math.max(2, Math.round(canvas.clientWidth * dense));
    const high = Math.max(2, Math.round(canvas.clientHeight * dense));
    canvas.width = wide; canvas.height = high;
    const image = ink.createImageData(wide, high), pixels = new Uint32Array(image.data.buffer);
    const depth = new Float32Array(wide * high).fill(-1e9), owner = new Uint8Array(wide * high);
    const apart = +pull.value, m = turn;
    const lamp = [0, 1, 2].map(i => -0.35 * m[0][i] + 0.5 * m[1][i] + 0.79 * m[2][i]);
    const half = way => wheel.radius + apart * wheel.row * Math.abs(m[way][2]);
    const scale = +near.value * 0.47 * Math.min(wide / half(0), high / half(1));
    wheel.parts.forEach((part, number) => {
      if (part.bead && (apart > 0.01 || !beads.checked)) return;
      const p = part.points, n = part.normals, s = part.seen, light = part.light;
      const [dx, dy, dz] = part.shift.map(v => v * apart);
      for (let k = 0; k < p.length; k += 3) {
        const x = p[k] + dx, y = p[k + 1] + dy, z = p[k + 2] + dz - wheel.middle;
        s[k] = wide / 2 + scale * (m[0][0] * x + m[0][1] * y + m[0][2] * z);
        s[k + 1] = high / 2 - scale * (m[1][0] * x + m[1][1] * y + m[1][2] * z);
        s[k + 2] = scale * (m[2][0] * x + m[2][1] * y + m[2][2] * z);
        light[k / 3] = 0.42 + 0.62 * Math.max(0, lamp[0] * n[k] + lamp[1] * n[k + 1] + lamp[2] * n[k + 2]);
      }
      for (let i = 0; i < part.triangles.length; i += 3) {
        fill(part, number + 1, part.triangles[i], part.triangles[i + 1], part.triangles[i + 2]);
      }
    });
    outline();
    ink.putImageData(image, 0, 0);

    function fill(part, number, a, b, c) {
      const s = part.seen;
      const ax = s[3 * a], ay = s[3 * a + 1], az = s[3 * a + 2];
      const bx = s[3 * b], by = s[3 * b + 1], bz = s[3 * b + 2];
      const cx = s[3 * c], cy = s[3 * c + 1], cz = s[3 * c + 2];
      const area = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax);
      if (area >= 0) return;  // y points down: a face turned to the eye runs clockwise
      const y0 = Math.max(0, Math.ceil(Math.min(ay, by, cy)));
      const y1 = Math.min(high - 1, Math.floor(Math.max(ay, by, cy)));
      const x0 = Math.max(0, Math.ceil(Math.min(ax, bx, cx)));
      const x1 = Math.min(wide - 1, Math.floor(Math.max(ax, bx, cx)));
      const la = part.light[a], lb = part.light[b], lc = part.light[c];
      const ux = (by - cy) / area, vx = (cy - ay) / area;  // what a step to the right adds
      const [red, green, blue] = part.colour;
      for (let y = y0; y <= y1; y++) {
        let u = ((bx - x0) * (cy - y) - (by - y) * (cx - x0)) / area;
        let v = ((cx - x0) * (ay - y) - (cy - y) * (ax - x0)) / area;
        for (let x = x0, at = y * wide + x0; x <= x1; x++, at++, u += ux, v += vx) {
          const w = 1 - u - v;
          if (u < -1e-6 || v < -1e-6 || w < -1e-6) continue;
          const z = u * az + v * bz + w * cz;
          if (z <= depth[at]) continue;
          depth[at] = z; owner[at] = number;
          const light = u * la + v * lb + w * lc;
          pixels[at] = 0xff000000 | (Math.min(255, blue * light) << 16) |
            (Math.min(255, green * light) << 8) | Math.min(255, red * light);
        }
      }
    }

    // Dark lines where one part ends or a depth jumps: reads in greys.
    function outline() {
      const jump = 0.02 * wheel.radius * scale, dark = 0xff282828;
      for (let y = 1; y < high; y++) {
        for (let x = 1, at = y * wide + 1; x < wide; x++, at++) {
          const left = at - 1, over = at - wide, here = depth[at];
          if (owner[at] !== owner[left] || Math.abs(here - depth[left]) > jump) {
            pixels[here >= depth[left] ? at : left] = dark;
          }
          if (owner[at] !== owner[over] || Math.abs(here - depth[over]) > jump) {
            pixels[here >= depth[over] ? at : over] = dark;
          }
        }
      }
    }
  }

  function again() { if (!wanted) { wanted = true; requestAnimationFrame(draw); } }
  function by(right, down) { turn = times(times(aboutX(down), aboutY(right)), turn); again(); }
  function start() { turn = wheel.start.map(row => row.slice()); pull.value = 0; near.value = 1; again(); }

  canvas.addEventListener("pointerdown", e => { last = e; canvas.setPointerCapture(e.pointerId); });
  canvas.addEventListener("pointermove", e => {
    if (!last) return;
    by((e.clientX - last.clientX) / 120, (e.clientY - last.clientY) / 120);
    last = e;
  });
  for (const end of ["pointerup", "pointercancel"]) {
    canvas.addEventListener(end, () => { last = null; again(); });
  }
  canvas.addEventListener("keydown", e => {
    const step = {ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1]}[e.key];
    if (step) { e.preventDefault(); by(step[0] * 0.15, step[1] * 0.15); }
  });
  for (const input of [pull, near, beads]) input.addEventListener("input", again);
  reset.addEventListener("click", start);
  window.addEventListener("resize", again);
  box.hidden = false;
  start();
})();
