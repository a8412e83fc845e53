// What a person does, as functions on the store.
import { ask, failed, tellAll } from "./core.js";
import { keepDraft, putAside, shelved, type Kept } from "./keep.js";
import { pack } from "./link.js";
import { store, type State } from "./store.js";
import type { Checkup, Compared, Edited, Formatted, LeadNotes, Levels, OpenLoom, Reference, Sketch, SynthesisWish, Traced } from "./types.gen.js";

interface Past {
  text: string;
  what: string;
}
const past: Past[] = [];
let at = -1;
let typed = 0;

export const canUndo = (): boolean => at > 0;
export const canRedo = (): boolean => at < past.length - 1;

function remember(text: string, what: string): void {
  const now = performance.now();
  if (what === "typing" && past[at]?.what === "typing" && now - typed < 800) {
    past[at] = { text, what };
    past.length = at + 1;
  } else if (past[at]?.text !== text) {
    past.length = at + 1;
    past.push({ text, what });
    at = past.length - 1;
  }
  typed = now;
}

export function undo(): void {
  if (canUndo()) put(past[--at].text, "undone");
}
export function redo(): void {
  if (canRedo()) put(past[++at].text, "done again");
}

/** openLoom lays another loom on the bench; its history begins anew. */
export function openLoom(name: string, kept: Kept, saved = kept.text): void {
  const was = store.state;
  if (at > 0 && was.text !== was.saved && was.text !== kept.text) putAside({ ...draft(was), mode: "bench" });
  past.length = 0;
  at = -1;
  remember(kept.text, "opened");
  void ask("draw", "forget", {});
  store.set({
    mode: "bench", name, text: kept.text, saved, mark: kept.mark, clash: undefined, loom: undefined, sketch: undefined, sketched: "",
    levels: undefined, trace: undefined, overTrace: undefined, compared: undefined, chosen: 0, over: -1, knobs: {}, armed: -1, run: -1, trouble: "", step: 0,
  });
  keep();
  void prove();
}

/** edit changes the text; what says what was done, for history and for ears. */
export function edit(text: string, what: string): void {
  if (text === store.state.text) return;
  remember(text, what);
  put(text, what === "typing" ? "" : what);
}

function put(text: string, says: string): void {
  store.set({ text, says, armed: -1, run: -1 });
  keep();
  void prove();
}

const draft = ({ name, text, mark, saved, mode }: State) => ({ name, text, mark, saved, mode });
const keep = (): void => keepDraft(draft(store.state));

/** work turns to another way of working with the loom. */
export function work(mode: State["mode"]): void {
  store.set({ mode });
  if (store.state.text) keep();
}

const body = (s: State) => ({ name: s.name, text: s.text });

async function prove(): Promise<void> {
  const s = store.state;
  const begun = performance.now();
  void sketch(begun);
  const loom = await ask<OpenLoom>("edit", "open", body(s), "open");
  if (!loom || store.state.text !== s.text) return;
  if (failed(loom)) {
    store.set({ trouble: loom.error });
    return;
  }
  const rows = loom.settings ?? [];
  const readable = rows.length > 0;
  const patch: Partial<State> = { readable };
  if (!readable) [patch.findings, patch.checked] = [loom.findings ?? [], s.text];
  if (readable || !store.state.loom) {
    patch.loom = loom;
    patch.chosen = sameSetting(loom);
    patch.over = Math.min(store.state.over, rows.length - 1);
    const names = new Set((loom.knobs ?? []).map((k) => k.name));
    patch.knobs = Object.fromEntries(Object.entries(store.state.knobs).filter(([k]) => names.has(k)));
    if (!loom.figures) patch.levels = undefined;
  }
  store.set(patch);
  performance.measure("text to table", { start: begun });
  if (!readable) return;
  void trace();
  void checkup(s);
}

/** checkup looks for what is wrong once the table stands; a later edit takes its place. */
async function checkup(s: State): Promise<void> {
  const out = await ask<Checkup>("edit", "checkup", body(s), "checkup");
  if (!out || failed(out) || store.state.text !== s.text) return;
  store.set({ findings: out.findings ?? [], checked: s.text });
}

/** sameSetting finds the chosen setting in a loom proved again, by its name. */
function sameSetting(loom: OpenLoom): number {
  const { loom: was, chosen } = store.state;
  const name = was?.settings?.[chosen]?.name;
  const same = (loom.settings ?? []).findIndex((r) => r.name === name);
  return same >= 0 ? same : 0;
}

async function sketch(begun: number): Promise<void> {
  const s = store.state;
  const sketch = await ask<Sketch>("draw", "sketch", body(s), "sketch");
  if (!sketch || store.state.text !== s.text) return;
  if (failed(sketch)) store.set({ trouble: sketch.error });
  else if (!sketch.svg && store.state.sketch?.svg) return; // the text cannot be read now: the last drawing stays
  else store.set({ sketch, sketched: s.text });
  performance.measure("text to drawing", { start: begun });
}

/** wired takes a wiring that was found; its drawing is laid out for it. */
export function wired(text: string): void {
  void ask("draw", "forget", {});
  edit(text, "wired as found");
}

/** layAnew draws the loom again from nothing. */
export function layAnew(): void {
  void ask("draw", "forget", {});
  void sketch(performance.now());
}

/** trace follows the chosen setting and the knobs with curve and levels. */
async function trace(): Promise<void> {
  const s = store.state;
  const row = s.loom?.settings?.[s.chosen];
  if (!row) return;
  const moved = Object.keys(s.knobs).length > 0;
  const asks: Promise<void>[] = [
    ask<Traced>("edit", "trace", { ...body(s), with: row.name, knobs: s.knobs, band: s.band }, "trace").then((t) => {
      if (t && !failed(t)) store.set({ trace: t });
    }),
  ];
  if (moved) {
    asks.push(ask<Levels>("edit", "rows", { ...body(s), knobs: s.knobs, over: s.loom?.over }, "rows").then((l) => {
      if (l && !failed(l)) store.set({ levels: l });
    }));
  } else if (s.levels) store.set({ levels: undefined });
  const other = beside(s);
  if (other) {
    asks.push(ask<Compared>("edit", "compare", { ...body(s), with: row.name, knobs: s.knobs, other }, "over").then((c) => {
      if (!c) return;
      if (failed(c)) store.set({ reference: undefined, compared: undefined, overTrace: undefined, trouble: `Not compared: ${c.error}.` });
      else store.set({ compared: c, overTrace: c.curve });
    }));
  } else if (s.overTrace || s.compared) store.set({ overTrace: undefined, compared: undefined });
  await Promise.all(asks);
}

/** beside is what the chosen setting is compared with: another loom, or another setting of this one. */
function beside(s: State): Reference | undefined {
  if (s.reference) return s.reference;
  const over = s.loom?.settings?.[s.over];
  return over && { ...body(s), with: over.name };
}

/** compareWith holds a loom beside the one on the bench; nothing given: none. */
export function compareWith(reference?: Reference): void {
  store.set({ reference, over: -1, compared: undefined, overTrace: undefined });
  void trace();
}

export function choose(row: number): void {
  const rows = store.state.loom?.settings ?? [];
  if (row < 0 || row >= rows.length) return;
  const { reference } = store.state;
  store.set({ chosen: row, reference: reference && { ...reference, with: "" } });
  void trace();
}

export function lieOver(row: number): void {
  store.set({ over: row });
  void trace();
}

export function turn(knob: string, mark: number, rest: number): void {
  const knobs = { ...store.state.knobs };
  if (mark === rest) delete knobs[knob];
  else knobs[knob] = mark;
  store.set({ knobs });
  void trace();
}

export function showBand(band: boolean): void {
  store.set({ band });
  void trace();
}

async function edited(call: string, extra: object, what: string): Promise<boolean> {
  const s = store.state;
  const out = await ask<Edited>("edit", call, { ...body(s), ...extra });
  if (!out || store.state.text !== s.text) return false;
  if (failed(out)) {
    store.set({ trouble: out.error, armed: -1 });
    return false;
  }
  store.set({ trouble: "" });
  edit(out.text, what);
  return true;
}

export async function join(a: number, b: number): Promise<void> {
  const terms = store.state.loom?.terms ?? [];
  if (a === b || !terms[a] || !terms[b]) {
    store.set({ armed: -1 });
    return;
  }
  await edited("join", { from: terms[a].name, to: terms[b].name }, `joined ${terms[a].name} and ${terms[b].name}`);
}

export async function cut(run: number): Promise<void> {
  const { loom } = store.state;
  const r = loom?.runs?.[run];
  if (!r) return;
  const [a, b] = [loom!.terms![r.a].name, loom!.terms![r.b].name];
  await edited("cut", { run }, `cut ${a} from ${b}`);
}

export const setPart = (part: string, key: string, value: string): Promise<boolean> =>
  edited("part", { part, key, value }, `${part}: ${key} ${value}`);

/** know writes what a meter told of a pickup's leads. */
export const know = (part: string, notes: LeadNotes): Promise<boolean> => edited("know", { part, notes }, `${part}: leads written down`);

/** own writes a switch as a meter told its contacts into the loom, and puts it in a part's place. */
export const own = (part: string, id: string, file: string): Promise<boolean> => edited("own", { part, key: id, value: file }, `${part}: contacts written down`);

/** exchange puts a switch in the place of another, or its sounds in another order, and moves what is wanted along. */
export const exchange = (part: string, is: string, order: { position: string; gets: string }[]): Promise<boolean> =>
  edited("switch", { part, value: is, order: Object.fromEntries(order.map((o) => [o.position, o.gets])) }, `${part}: ${is}`);

/** lay puts a part elsewhere in the drawing, by mm and quarter turns; nothing given: the layout decides. */
export function lay(part: string, by?: { x: number; y: number; turn: number }): Promise<boolean> {
  const at = store.state.sketch?.places?.[part];
  if (!by) return edited("place", { part }, `${part} lies where the layout puts it`);
  if (!at) return Promise.resolve(false);
  return edited("place", { part, at: [at[0] + by.x, at[1] + by.y, at[2] + by.turn] }, `${part} moved`);
}

export const want = (setting: string, sound: string): Promise<boolean> =>
  edited("want", { with: setting, value: sound }, sound ? `with ${setting}: ${sound} is wanted` : `with ${setting}: nothing is asked`);

export const giveUp = (wishes: SynthesisWish[]): Promise<boolean> =>
  edited("giveUp", { sounds: wishes.map((w) => w.sound) }, `given up: ${wishes.map((w) => w.hear).join(", ")}`);

export async function layOut(): Promise<void> {
  const s = store.state;
  const out = await ask<Formatted>("edit", "format", body(s));
  if (out && !failed(out) && store.state.text === s.text) edit(out.text, "laid out");
}

/** save keeps the loom on its shelf; a text that changed there meanwhile is offered, not lost. */
export async function save(name = store.state.name): Promise<void> {
  const s = store.state;
  if (!s.shelf || !name) return;
  try {
    const out = await s.shelf.save(name, s.text, name === s.name ? s.mark : "");
    if (typeof out !== "string") {
      store.set({ clash: out.clash, name });
      return;
    }
    store.set({ name, mark: out, saved: s.text, clash: undefined, says: `saved as ${name}`, trouble: "" });
    keep();
  } catch (fault) {
    store.set({ trouble: `Not saved: ${fault instanceof Error ? fault.message : fault}` });
  }
}

/** settle ends a clash: with this text over that one, or with that one here. */
export async function settle(mine: boolean): Promise<void> {
  const { clash, name } = store.state;
  if (!clash) return;
  if (mine) {
    store.set({ mark: clash.mark, clash: undefined });
    await save(name);
    return;
  }
  store.set({ mark: clash.mark, saved: clash.text, clash: undefined });
  edit(clash.text, "taken from the file");
  keep();
}

/** look asks whether the file changed on its shelf, and takes it where nothing is lost. */
export async function look(): Promise<void> {
  const s = store.state;
  if (!s.shelf || !s.mark || s.clash) return;
  const there = await s.shelf.read(s.name).catch(() => undefined);
  const now = store.state;
  if (!there || there.mark === now.mark || now.name !== s.name || now.mark !== s.mark) return;
  if (there.text === now.text) store.set({ mark: there.mark, saved: there.text });
  else if (now.text === now.saved) {
    store.set({ mark: there.mark, saved: there.text });
    edit(there.text, "the file changed on disk and is shown as it is now");
  } else store.set({ clash: there });
}

let shelf = "{}";

/** readShelf gives the cores the user's own parts, where they changed. */
export async function readShelf(): Promise<void> {
  if (store.state.shelf?.kind !== "folder") return;
  const files = await shelved();
  const now = JSON.stringify(files);
  if (now === shelf) return;
  shelf = now;
  tellAll("shelf", { files });
  store.set({ shelves: Object.keys(files).length });
  if (store.state.text) void prove();
}

export async function link(): Promise<string> {
  return location.href.split("#")[0] + "#loom=" + (await pack(store.state.text));
}
