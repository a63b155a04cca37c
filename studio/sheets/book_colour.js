// Colours as studio/colour computes them, in double precision: sRGB and L*a*b* under D50 for the
// 2 degree observer, both ways (studio/colour/srgb.py, display.py), and CIEDE2000 (difference.py).
// Pure functions; a colour is an array [L*, a*, b*].

const WHITE = [0.3457 / 0.3585, 1.0, (1.0 - 0.3457 - 0.3585) / 0.3585];
// CSS Color 4, "Sample code for color conversions": Bradford adaptation and linear sRGB (D65).
const D50_TO_D65 = [
  [0.955473421488075, -0.02309845494876471, 0.06325924320057072],
  [-0.0283697093338637, 1.0099953980813041, 0.021041441191917323],
  [0.012314014864481998, -0.020507649298898964, 1.330365926242124],
];
const D65_TO_D50 = [
  [1.0479297925449969, 0.022946870601609652, -0.05019226628920524],
  [0.02962780877005599, 0.9904344267538799, -0.017073799063418826],
  [-0.009243040646204504, 0.015055191490298152, 0.7518742814281371],
];
const XYZ_TO_SRGB = [
  [12831 / 3959, -329 / 214, -1974 / 3959],
  [-851781 / 878810, 1648619 / 878810, 36519 / 878810],
  [705 / 12673, -2585 / 12673, 705 / 667],
];
const SRGB_TO_XYZ = [
  [506752 / 1228815, 87881 / 245763, 12673 / 70218],
  [87098 / 409605, 175762 / 245763, 12673 / 175545],
  [7918 / 409605, 87881 / 737289, 1001167 / 1053270],
];
const KAPPA = 24389 / 27;
const EPSILON = 216 / 24389;
const TOLERANCE = 5e-4;
const SLIGHT = 1e-9;
// Above this difference a patch says by how much it is off.
const NOTABLE = 2.0;
const STEPS = [-1, 0, 1];
const WAYS = STEPS.flatMap((r) => STEPS.flatMap((g) => STEPS.map((b) => [r, g, b])));

function times(matrix, v) {
  return matrix.map((row) => row[0] * v[0] + row[1] * v[1] + row[2] * v[2]);
}

// [L*, a*, b*] of gamma-encoded sRGB (IEC 61966-2-1), 0 to 1 a channel.
function srgbToLab(rgb) {
  const linear = rgb.map((c) => (c <= 0.04045 ? c / 12.92 : Math.pow((c + 0.055) / 1.055, 2.4)));
  const xyz = times(D65_TO_D50, times(SRGB_TO_XYZ, linear));
  const f = xyz.map((value, axis) => {
    const t = value / WHITE[axis];
    return t > EPSILON ? Math.cbrt(t) : (KAPPA * t + 16.0) / 116.0;
  });
  return [116.0 * f[1] - 16.0, 500.0 * (f[0] - f[1]), 200.0 * (f[1] - f[2])];
}

// Gamma-encoded sRGB, unclipped, of [L*, a*, b*].
function labToSrgb(lab) {
  const fy = (lab[0] + 16.0) / 116.0;
  const uncurved = (f) => (f * f * f > EPSILON ? f * f * f : (116.0 * f - 16.0) / KAPPA);
  const xyz = [
    uncurved(fy + lab[1] / 500.0) * WHITE[0],
    lab[0] <= KAPPA * EPSILON ? lab[0] / KAPPA : fy * fy * fy,
    uncurved(fy - lab[2] / 200.0) * WHITE[2],
  ];
  return times(XYZ_TO_SRGB, times(D50_TO_D65, xyz)).map((linear) => {
    const size = Math.abs(linear);
    if (size <= 0.0031308) {
      return 12.92 * linear;
    }
    return Math.sign(linear) * (1.055 * Math.pow(size, 1 / 2.4) - 0.055);
  });
}

// From a start, three bytes, to an 8-bit colour none of whose 26 neighbours is nearer to a colour, and
// its difference. A difference must be lower by SLIGHT to count as lower, so that every maths library
// takes the same way.
function descend(lab, start) {
  const difference = (bytes) => ciede2000(lab, srgbToLab(bytes.map((b) => b / 255.0)));
  let best = start;
  let least = difference(start);
  for (const stride of [32, 16, 8, 4, 2, 1]) {
    let moved = true;
    while (moved) {
      moved = false;
      const middle = best;
      for (const way of WAYS) {
        const tried = middle.map((b, axis) => Math.min(255, Math.max(0, b + stride * way[axis])));
        const off = difference(tried);
        if (off < least - SLIGHT) {
          [best, least, moved] = [tried, off, true];
        }
      }
    }
  }
  return [best, least];
}

// What a screen limited to sRGB shows, as #rrggbb: outside it the colour of least CIEDE2000 that a
// descent finds from the clipped channels and from the colour of the same L* and hue whose chroma
// just fits (studio/colour/display.py), and by how much it is off.
function onScreen(lab) {
  const fits = (rgb) => rgb.every((c) => c >= -TOLERANCE && c <= 1.0 + TOLERANCE);
  const toBytes = (rgb) => rgb.map((c) => Math.round(255.0 * Math.min(1.0, Math.max(0.0, c))));
  const hex = (bytes) => "#" + bytes.map((b) => b.toString(16).padStart(2, "0")).join("");
  const rgb = labToSrgb(lab);
  if (fits(rgb)) {
    return { hex: hex(toBytes(rgb)), inside: true, off: 0.0 };
  }
  const lessIntense = (share) => labToSrgb([lab[0], lab[1] * share, lab[2] * share]);
  let low = 0.0;
  let high = 1.0;
  for (let turn = 0; turn < 20; turn += 1) {
    const middle = (low + high) / 2;
    if (fits(lessIntense(middle))) {
      low = middle;
    } else {
      high = middle;
    }
  }
  const first = descend(lab, toBytes(rgb));
  const second = descend(lab, toBytes(lessIntense(low)));
  const [bytes, off] = second[1] < first[1] - SLIGHT ? second : first;
  return { hex: hex(bytes), inside: false, off };
}

// CIEDE2000 with k_L = k_C = k_H = 1: Sharma, Wu, Dalal (2005), "The CIEDE2000 color-difference
// formula: implementation notes", Color Research and Application 30(1), equations 2 to 22.
function ciede2000(lab1, lab2) {
  const rad = Math.PI / 180.0;
  const turn = (degrees) => (degrees < 0.0 ? degrees + 360.0 : degrees);
  const seventh = (c) => Math.pow(c, 7) / (Math.pow(c, 7) + Math.pow(25.0, 7));
  const [l1, a1, b1] = lab1;
  const [l2, a2, b2] = lab2;
  const cBar = (Math.hypot(a1, b1) + Math.hypot(a2, b2)) / 2; // (2), (3)
  const g1 = 1.5 - 0.5 * Math.sqrt(seventh(cBar)); // 1 + G of (4)
  const a1p = g1 * a1; // (5)
  const a2p = g1 * a2;
  const c1p = Math.hypot(a1p, b1); // (6)
  const c2p = Math.hypot(a2p, b2);
  const h1p = turn(Math.atan2(b1, a1p) / rad); // (7)
  const h2p = turn(Math.atan2(b2, a2p) / rad);
  const neutral = c1p * c2p === 0.0;

  let dhp = neutral ? 0.0 : h2p - h1p; // (10)
  if (dhp > 180.0) {
    dhp -= 360.0;
  } else if (dhp < -180.0) {
    dhp += 360.0;
  }
  const dH = 2.0 * Math.sqrt(c1p * c2p) * Math.sin((dhp * rad) / 2); // (11)

  const lBar = (l1 + l2) / 2; // (12)
  const cpBar = (c1p + c2p) / 2; // (13)
  const hSum = h1p + h2p;
  let hBar = hSum; // (14)
  if (!neutral && Math.abs(h1p - h2p) <= 180.0) {
    hBar = hSum / 2;
  } else if (!neutral) {
    hBar = hSum < 360.0 ? (hSum + 360.0) / 2 : (hSum - 360.0) / 2;
  }

  const t =
    1.0 -
    0.17 * Math.cos((hBar - 30.0) * rad) +
    0.24 * Math.cos(2.0 * hBar * rad) +
    0.32 * Math.cos((3.0 * hBar + 6.0) * rad) -
    0.2 * Math.cos((4.0 * hBar - 63.0) * rad); // (15)
  const dTheta = 30.0 * Math.exp(-(((hBar - 275.0) / 25.0) ** 2)); // (16)
  const rC = 2.0 * Math.sqrt(seventh(cpBar)); // (17)
  const l50 = (lBar - 50.0) ** 2;
  const sL = 1.0 + (0.015 * l50) / Math.sqrt(20.0 + l50); // (18)
  const sC = 1.0 + 0.045 * cpBar; // (19)
  const sH = 1.0 + 0.015 * cpBar * t; // (20)
  const rT = -Math.sin(2.0 * dTheta * rad) * rC; // (21)
  const x = (l2 - l1) / sL;
  const y = (c2p - c1p) / sC;
  const z = dH / sH;
  return Math.sqrt(Math.max(0.0, x * x + y * y + z * z + rT * y * z)); // (22)
}

// A colour as it is typed, #rrggbb, lab(L a b) or lch(L C h): its [L*, a*, b*]; null if it is none.
function readColour(text) {
  const spelling = text.trim().toLowerCase();
  let hex = /^(?:#([0-9a-f]{3}|[0-9a-f]{6})|([0-9a-f]{6}))$/.exec(spelling);
  if (hex) {
    hex = hex[1] || hex[2];
    const digits = hex.length === 3 ? hex.replace(/./g, "$&$&") : hex;
    return srgbToLab([0, 2, 4].map((at) => parseInt(digits.slice(at, at + 2), 16) / 255.0));
  }
  const number = "([-+]?(?:\\d+\\.?\\d*|\\.\\d+))";
  const form = new RegExp(`^(lab|lch)\\(\\s*${number}%?\\s+${number}\\s+${number}\\s*\\)$`);
  // Commas are how most people type three numbers; a minus may have been typeset.
  const found = form.exec(spelling.replace(/,/g, " ").replace(/\u2212/g, "-"));
  if (!found) {
    return null;
  }
  let [first, second, third] = found.slice(2).map(Number);
  if (found[1] === "lch") {
    const hue = (third * Math.PI) / 180.0;
    const chroma = Math.max(0.0, second);
    [second, third] = [chroma * Math.cos(hue), chroma * Math.sin(hue)];
  }
  const within = first >= 0.0 && first <= 100.0 && Math.max(Math.abs(second), Math.abs(third)) <= 200.0;
  return within ? [first, second, third] : null;
}
