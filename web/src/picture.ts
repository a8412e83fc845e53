// Small pictures: a part as its part file draws it, a control scheme as the way
// from the pickups to the jack.
import { svg, type TemplateResult, html } from "lit";
import type { Choice, PartShape, SchemeChoice, SchemeRole } from "./types.gen.js";

function shape(s: PartShape) {
  const [x, y] = s.At, [w, h] = s.Size;
  switch (s.Shape) {
    case "circle": return svg`<ellipse class=${"m-" + s.Fill} cx=${x} cy=${y} rx=${w / 2} ry=${(h || w) / 2}></ellipse>`;
    case "rect": return svg`<rect class=${"m-" + s.Fill} x=${x - w / 2} y=${y - h / 2} width=${w} height=${h} rx=${s.Round}></rect>`;
    case "path": case "line": return svg`<path class=${"m-" + (s.Fill || "none")} d=${"M" + (s.Points ?? []).map((p) => p.join(" ")).join("L")}></path>`;
    default: return "";
  }
}

/** picture is a part to look at; its name stands beside it. */
export function picture(c: Choice, size = 72): TemplateResult {
  const shapes = c.shapes ?? [];
  let [l, t, r, b] = [-8, -8, 8, 8];
  for (const s of shapes) {
    for (const [x, y] of s.Points?.length ? s.Points : [[s.At[0] - s.Size[0] / 2, s.At[1] - s.Size[1] / 2], [s.At[0] + s.Size[0] / 2, s.At[1] + s.Size[1] / 2]]) {
      [l, t, r, b] = [Math.min(l, x), Math.min(t, y), Math.max(r, x), Math.max(b, y)];
    }
  }
  return html`<svg class="picture" width=${size} height=${size} viewBox="${l - 1} ${t - 1} ${r - l + 2} ${b - t + 2}" aria-hidden="true">${shapes.map(shape)}</svg>`;
}

/** way draws one stretch: a volume passes the sound on, a tone hangs on it. */
function way(roles: SchemeRole[], late: boolean, x: number, y: number) {
  let at = x;
  const order = late ? roles : [...roles].sort((a, b) => Number(a.is === "volume") - Number(b.is === "volume"));
  return { width: roles.filter((r) => r.is !== "capacitor" && r.is !== "bleed").length * 26, draw: order.map((r) => {
    if (r.is === "capacitor" || r.is === "bleed") return "";
    const cx = (at += 26) - 13;
    const hangs = r.is === "tone";
    return svg`${hangs ? svg`<path d="M${cx} ${y}V${y + 12}"></path>` : ""}<circle cx=${cx} cy=${hangs ? y + 12 : y} r="8"></circle>
      <text x=${cx} y=${(hangs ? y + 12 : y) + 3.5}>${r.is[0].toUpperCase()}</text>`;
  }) };
}

/** schemePicture: V a volume, T a tone, B a blend; coils on the left, the jack on the right; has: which pickups have controls of their own. */
export function schemePicture(s: SchemeChoice, has: boolean[]): TemplateResult {
  const each = s.each ?? [];
  const rows = each.length ? has.length : 1;
  const height = rows * 36 + 12, mid = (height - 12) / 2 + 2;
  const eachWidth = way(each, s.late, 0, 0).width;
  const whole = way(s.whole ?? [], s.late, 34 + eachWidth, mid);
  const end = 46 + eachWidth + whole.width;
  const lines = Array.from({ length: rows }, (_, i) => i * 36 + 20);
  return html`<svg class="scheme" width=${end + 16} height=${height} viewBox="0 0 ${end + 16} ${height}" aria-hidden="true">
    ${lines.map((y, i) => svg`<rect x="1" y=${y - 5} width="16" height="10" rx="5"></rect><path d="M17 ${y}H${22 + eachWidth}L${32 + eachWidth} ${mid}"></path>${has[i] ? way(each, s.late, 20, y).draw : ""}`)}
    <path d="M${32 + eachWidth} ${mid}H${end}"></path>${whole.draw}<circle class="jack" cx=${end + 6} cy=${mid} r="6"></circle></svg>`;
}
