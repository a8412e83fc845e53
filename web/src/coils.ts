// A sound as a strip of coils: side by side in series, one above the other in
// parallel, a slashed coil reversed.
import { svg, type SVGTemplateResult } from "lit";
import type { SoundExpr } from "./types.gen.js";

interface Box {
  w: number;
  h: number;
  draw: (x: number, y: number) => SVGTemplateResult; // y: of its middle
}
const gap = 3;
const wire = (x: number, y: number, x2: number, y2: number) => svg`<path d="M${x} ${y}L${x2} ${y2}"></path>`;

function coil(reversed: boolean): Box {
  return {
    w: 11, h: 11,
    draw: (x, y) => svg`<circle cx=${x + 5.5} cy=${y} r="4.2"></circle>${reversed ? wire(x + 2, y + 3.5, x + 9, y - 3.5) : ""}`,
  };
}

function box(e: SoundExpr, flip: boolean): Box {
  const reversed = flip !== !!e.reversed;
  const kids = (e.kids ?? []).map((k) => box(k, reversed));
  if (kids.length === 0) return coil(reversed);
  if (e.op === "parallel") {
    const w = Math.max(...kids.map((k) => k.w)) + 2 * gap;
    const h = kids.reduce((sum, k) => sum + k.h + 1, -1);
    return {
      w, h,
      draw: (x, y) => {
        let top = y - h / 2;
        const middles = kids.map((k) => ((top += k.h + 1), top - 1 - k.h / 2));
        return svg`${wire(x, middles[0], x, middles.at(-1)!)}${wire(x + w, middles[0], x + w, middles.at(-1)!)}${kids.map((k, i) => {
          const left = x + (w - k.w) / 2;
          return svg`${wire(x, middles[i], left, middles[i])}${k.draw(left, middles[i])}${wire(left + k.w, middles[i], x + w, middles[i])}`;
        })}`;
      },
    };
  }
  const w = kids.reduce((sum, k) => sum + k.w + gap, -gap);
  return {
    w, h: Math.max(...kids.map((k) => k.h)),
    draw: (x, y) => {
      let left = x - gap;
      return svg`${kids.map((k, i) => {
        const at = (left += gap);
        left += k.w;
        return svg`${i ? wire(at - gap, y, at, y) : ""}${k.draw(at, y)}`;
      })}`;
    },
  };
}

export function strip(e: SoundExpr | undefined): SVGTemplateResult | string {
  if (!e || e.op === "silent" || e.op === "any" || e.op === "mesh" || e.unsure) return "";
  const b = box(e, false);
  const w = b.w + 8, h = Math.max(b.h, 11) + 2;
  return svg`<svg class="strip" viewBox="0 0 ${w} ${h}" width=${w} height=${h} aria-hidden="true">${wire(0, h / 2, 4, h / 2)}${b.draw(4, h / 2)}${wire(4 + b.w, h / 2, w, h / 2)}</svg>`;
}

/** heardAs reads a sound in words for its strip; a pickup of two coils is both in series. */
export function heardAs(sound: string, names: string[]): SoundExpr {
  const words = sound.match(/[()]|[^\s()]+/g) ?? [];
  let at = 0;
  const term = (): SoundExpr => {
    const w = words[at++] ?? "";
    if (w === "reversed") return { ...term(), reversed: true };
    if (w === "(") {
      const e = chain();
      at++;
      return e;
    }
    const coils = names.filter((n) => n.startsWith(w + "."));
    return coils.length === 2 ? { op: "series", kids: coils.map((name) => ({ op: "coil", name })) } : { op: w === "silent" ? w : "coil", name: w };
  };
  const chain = (): SoundExpr => {
    const kids = [term()];
    let op = "";
    while (at < words.length && words[at] !== ")") {
      op = words[at++];
      kids.push(term());
    }
    return op ? { op, kids } : kids[0];
  };
  return chain();
}

/** inWords says a sound as a player would: a reversed coil is out of phase. */
export const inWords = (sound: string): string => sound.replace(/reversed (\([^)]*\)|[^\s()]+)/g, "$1 out of phase").replace(/^silent$/, "off: silent");
