// A loom that is being put together: what was chosen so far, kept in the
// browser, so that no step back loses anything.
import type { Choice, Choices, CodeChoice, LeadEnd, LeadNotes, LeadsState, Plan, PlanPart, PlanSound, SchemeChoice, SchemeRole } from "./types.gen.js";

export type How = "coil" | "code" | "words" | "each" | "unknown" | "meter";

export interface Pickup {
  is: string; // "": none
  ohms: string;
  reverse: boolean;
  how: How;
  code: string;
  words: string;
  worded?: LeadNotes; // of words, as they may have been put right
  colours: string; // of leads that nobody knows
  state?: LeadsState;
  notes?: LeadNotes; // of the meter
}
export interface Pot {
  name: string;
  is: string;
  value: string;
  resistor?: string; // of a treble bleed
}
export interface Own {
  file: string;
  choice: Choice;
}
export interface Draft {
  step: number;
  title: string;
  pickups: Record<string, Pickup>; // by place
  switches: { name: string; is: string }[];
  scheme: string;
  without?: string[]; // pickups without a tone of their own, where a scheme allows it
  bleed: boolean;
  pots: Record<string, Pot>; // by name; those that were changed
  sounds: Record<string, string>; // by setting
  hum: boolean;
  own: Record<string, Own>;
  opened: string; // name of the loom that it became
}

export const places = ["neck", "middle", "bridge"];
export const empty = (): Pickup => ({ is: "", ohms: "", reverse: false, how: "coil", code: "", words: "", colours: "" });
export const fresh = (): Draft => ({ step: 0, title: "", pickups: {}, switches: [], scheme: "", bleed: false, pots: {}, sounds: {}, hum: false, own: {}, opened: "" });

const key = "loomwright/new", ownKey = "loomwright/own";

export function keptDraft(): Draft | undefined {
  try {
    const d = JSON.parse(localStorage.getItem(key) ?? "null");
    return d ? { ...fresh(), ...d } : undefined;
  } catch {
    return undefined;
  }
}
export function keepPlan(d: Draft | undefined): void {
  try {
    if (d) localStorage.setItem(key, JSON.stringify(d));
    else localStorage.removeItem(key);
  } catch {
    // full: the draft lives as long as the page
  }
}

/** ownParts are the switches that were found by meter in this browser. */
export function ownParts(): Record<string, Own> {
  try {
    return JSON.parse(localStorage.getItem(ownKey) ?? "{}") ?? {};
  } catch {
    return {};
  }
}
export function keepOwn(id: string, own: Own): void {
  try {
    localStorage.setItem(ownKey, JSON.stringify({ ...ownParts(), [id]: own }));
  } catch {
    // full: it is in the loom file all the same
  }
}

export const used = (d: Draft): string[] => places.filter((p) => d.pickups[p]?.is);

/** free is the first of a word's names that nothing has yet. */
export function free(word: string, taken: string[]): string {
  for (let n = 1; ; n++) {
    const name = n === 1 ? word : `${word}-${n}`;
    if (!taken.includes(name)) return name;
  }
}

/** withoutTone are the pickups that have no tone of their own; of three, the bridge's is the usual one to be without. */
export function withoutTone(d: Draft, s: SchemeChoice | undefined): string[] {
  return s?.some ? (d.without ?? (used(d).length > 2 ? ["bridge"] : [])) : [];
}

/** usualScheme is the one that is usual for the pickups and switches (common practice, no source). */
export function usualScheme(d: Draft, c: Choices): string {
  const hung = (c.schemes ?? []).find((s) => s.some && s.each?.some((r) => r.shared));
  return hung && used(d).length === 3 && isSingle(d, c) && d.switches.some((s) => /lever-5way/.test(s.is)) ? hung.name : "one volume, one tone";
}

/** potsOf are the parts that a scheme needs, by the names that it finds them by. */
export function potsOf(d: Draft, s: SchemeChoice | undefined, single: boolean): Pot[] {
  const out: Pot[] = [];
  const add = (role: SchemeRole, before: string) => {
    if (role.optional && !(role.is === "bleed" && d.bleed)) return;
    const name = role.is === "capacitor" ? (before && !role.shared ? `${before}-cap` : "tone-cap") : before ? `${before}-${role.name}` : role.name;
    if (out.some((p) => (role.is === "blend" ? p.is === "pot/blend" : p.name === name))) return;
    if (role.is === "bleed") { // 1n and 150k: common practice, no source
      out.push(d.pots[name] ?? { name, is: "bleed/parallel", value: "1n", resistor: "150k" });
      return;
    }
    const [is, value] = role.is === "capacitor" ? ["capacitor/film", single ? "47n" : "22n"] : role.is === "blend" ? ["pot/blend", "500k linear"] : ["pot/standard", single ? "250k audio" : "500k audio"];
    const at = role.is === "blend" ? "blend" : name;
    out.push(d.pots[at] ?? { name: at, is, value });
  };
  for (const p of used(d)) if (!withoutTone(d, s).includes(p)) for (const r of s?.each ?? []) add(r, p);
  for (const r of s?.whole ?? []) add(r, "");
  return out;
}

const split = (words: string): string[] => words.split(/[,;\n]+/).map((w) => w.trim().toLowerCase().replace(/\s*\/\s*/g, "/").replace(/\s+/g, "-")).filter(Boolean);

/** notesOf are the leads of a pickup as they go into the file. */
export function notesOf(p: Pickup): LeadNotes | undefined {
  switch (p.how) {
    case "words": case "each": return p.worded?.leads?.length ? p.worded : undefined;
    case "meter": return p.notes;
    case "unknown": {
      const leads: LeadEnd[] = split(p.colours).map((lead) => ({ lead, ends: /^(bare|braid|shield|screen)$/.test(lead) ? ["shield"] : [] }));
      return leads.length ? { leads } : undefined;
    }
  }
  return undefined;
}

/** planOf is the draft as the core takes it. */
export function planOf(d: Draft, c: Choices): Plan {
  const parts: PlanPart[] = used(d).map((name) => {
    const p = d.pickups[name];
    const single = c.parts?.find((x) => x.id === p.is)?.coils?.length === 1;
    return { name, is: p.is, ohms: p.ohms.trim(), code: p.how === "code" ? p.code : "", reverse: p.reverse && single, notes: notesOf(p) };
  });
  parts.push(...d.switches);
  for (const p of potsOf(d, schemeOf(d, c), isSingle(d, c))) {
    if (p.is.startsWith("bleed")) parts.push({ name: p.name, is: p.is, capacitor: p.value, resistor: p.is === "bleed/capacitor" ? "" : (p.resistor ?? "150k") });
    else parts.push(p.is.startsWith("capacitor") ? { name: p.name, is: p.is, value: p.value } : { name: p.name, is: p.is, track: p.value });
  }
  parts.push({ name: "strings", is: "ground/string" }, { name: "jack", is: "jack/mono" });
  const own = Object.fromEntries(Object.entries(d.own).map(([id, o]) => [id, o.file]));
  const sounds: PlanSound[] = Object.entries(d.sounds).filter(([, hear]) => hear).map(([w, hear]) => (w === "as wired" ? { hear } : { with: w, hear }));
  return { title: titleOf(d, c), parts, own, scheme: d.scheme, sounds };
}

export const schemeOf = (d: Draft, c: Choices): SchemeChoice | undefined => (c.schemes ?? []).find((s) => s.name === d.scheme);
export const isSingle = (d: Draft, c: Choices): boolean => used(d).every((p) => c.parts?.find((x) => x.id === d.pickups[p].is)?.coils?.length === 1);
export const codesFor = (c: Choices, is: string): CodeChoice[] => (c.codes ?? []).filter((x) => x.fits?.includes(is));

const an = (word: string): string => (/^[aeiou]/i.test(word) ? "an " : "a ") + word;

/** titleOf says what is put together, where nobody gave it a title. */
export function titleOf(d: Draft, c: Choices): string {
  if (d.title) return d.title;
  const name = (id: string) => d.own[id]?.choice.name ?? c.parts?.find((x) => x.id === id)?.name ?? id;
  const kinds = new Map<string, number>();
  for (const p of used(d)) kinds.set(name(d.pickups[p].is), (kinds.get(name(d.pickups[p].is)) ?? 0) + 1);
  const words = [...kinds].map(([k, n]) => (n > 1 ? `${["", "", "two", "three"][n]} ${k}s` : k)).join(", ");
  const title = words + (d.switches.length ? ` on ${d.switches.map((s) => an(name(s.is))).join(" and ")}` : "");
  return title.charAt(0).toUpperCase() + title.slice(1);
}

/** spread lays a table of sounds over settings: each clause of a sound has to hold. */
export function spread(table: PlanSound[], settings: string[]): Record<string, string> {
  const out: Record<string, string> = {};
  for (const s of settings) {
    const clauses = s.split(", ");
    const t = table.find((t) => (t.with ?? "").split(", ").filter(Boolean).every((w) => clauses.includes(w)));
    if (t) out[s] = t.hear;
  }
  return out;
}
