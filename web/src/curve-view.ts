// What reaches the jack over frequency, over another setting where one is
// chosen. Drawn as SVG so that it prints and is read out; the figures come from
// the core.
import { html, nothing, svg } from "lit";
import { showBand } from "./act.js";
import "./beside-view.js";
import { define, View } from "./view.js";
import type { ElectricsBand, ElectricsCurve } from "./types.gen.js";

const box = { w: 640, h: 280, left: 44, right: 8, top: 10, bottom: 30 };
const hz = [40, 12000];
const db = [-36, 18];
const px = (f: number) => box.left + ((box.w - box.left - box.right) * Math.log(f / hz[0])) / Math.log(hz[1] / hz[0]);
const py = (d: number) => box.top + ((box.h - box.top - box.bottom) * (db[1] - Math.min(Math.max(d, db[0]), db[1]))) / (db[1] - db[0]);

function path(f: number[] | null, d: number[] | null): string {
  let out = "";
  for (let i = 0; i < (f?.length ?? 0); i++) out += `${i ? "L" : "M"}${px(f![i]).toFixed(1)} ${py(d![i]).toFixed(1)}`;
  return out;
}

function area(b: ElectricsBand): string {
  const back = path([...(b.hz ?? [])].reverse(), [...(b.lo ?? [])].reverse());
  return path(b.hz, b.hi) + back.replace("M", "L") + "Z";
}

const grid = svg`
  ${[50, 100, 200, 500, 1000, 2000, 5000, 10000].map((f) => svg`<path class="grid" d="M${px(f)} ${box.top}V${box.h - box.bottom}"></path>
    <text x=${px(f)} y=${box.h - 10} text-anchor="middle">${f < 1000 ? f : f / 1000 + "k"}</text>`)}
  ${[-30, -20, -10, 0, 10].map((d) => svg`<path class="grid ${d === 0 ? "zero" : ""}" d="M${box.left} ${py(d)}H${box.w - box.right}"></path>
    <text x=${box.left - 6} y=${py(d) + 4} text-anchor="end">${d < 0 ? "−" + -d : d}</text>`)}
  <text x="4" y=${box.h - 10}>Hz</text><text x="4" y="16">dB</text>`;

class CurveView extends View {
  render() {
    const s = this.state;
    const t = s.trace;
    const there = s.reference ? `${s.reference.name}, ` : "";
    return html`<section aria-labelledby="curve-head">
      <h2 id="curve-head">Curve</h2>
      <lw-beside></lw-beside>
      <div class="row-of">
        <label class="check"><input type="checkbox" .checked=${s.band} @change=${(e: Event) => showBand((e.target as HTMLInputElement).checked)}> Tolerance as a band</label>
      </div>
      ${t ? html`<svg class="curve" viewBox="0 0 ${box.w} ${box.h}" role="img" aria-label=${words(t.setting, t.curve)}>
        ${grid}
        ${t.band?.hz ? svg`<path class="band" d=${area(t.band)}></path>` : nothing}
        ${s.overTrace ? svg`<path class="line other" d=${path(s.overTrace.curve.hz, s.overTrace.curve.db)}></path>` : nothing}
        <path class="line" d=${path(t.curve.hz, t.curve.db)}></path>
        ${t.curve.peak ? svg`<circle class="peak" cx=${px(t.curve.peak.hz)} cy=${py(at(t.curve, t.curve.peak.hz))} r="4"></circle>` : nothing}
      </svg>
      <p class="foot"><span class="key solid"></span> ${words(t.setting, t.curve)}${s.overTrace ? html`<br><span class="key dashed"></span> ${there}${words(s.overTrace.setting, s.overTrace.curve)}` : nothing}
        ${t.band ? html`<br>${t.band.kind}` : nothing}</p>` : html`<p class="foot">The curve of the chosen setting appears here.</p>`}
    </section>`;
  }
}

/** at is a curve's level at a frequency, between its points. */
function at(c: ElectricsCurve, f: number): number {
  const i = (c.hz ?? []).findIndex((x) => x >= f);
  return c.db?.[Math.max(i, 0)] ?? 0;
}

function words(setting: string, c: ElectricsCurve): string {
  if (c.output !== "sounding") return `${setting}: ${c.output}`;
  if (!c.peak) return `${setting}: no resonance`;
  const f = c.peak.hz >= 1000 ? (c.peak.hz / 1000).toPrecision(2) + " kHz" : c.peak.hz.toPrecision(2) + " Hz";
  return `${setting}: resonance at ${f}, a rise of ${c.peak.db.toFixed(1)} dB`;
}

define("lw-curve", CurveView);
