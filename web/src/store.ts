// What the page knows, and the one way to change it.
import type { Begin, Compared, DiagDiagnostic, Levels, OpenLoom, Reference, Sketch, Traced } from "./types.gen.js";
import type { Kept, Shelf } from "./keep.js";

export type Mode = "bench" | "solder" | "meter" | "open" | "new";
export type Panel = "table" | "drawing" | "curve" | "text";

export interface State {
  mode: Mode;
  panel: Panel; // on a narrow screen
  shelf?: Shelf;
  begin?: Begin;
  name: string;
  text: string;
  saved: string; // as last saved or opened
  mark: string; // of the saved text on its shelf
  clash?: Kept;
  loom?: OpenLoom; // the last one that could be proved
  findings: DiagDiagnostic[]; // of the text that was checked last
  checked: string; // that text
  readable: boolean;
  sketch?: Sketch;
  sketched: string; // the text that the sketch is of
  chosen: number; // setting, by row
  over: number; // setting that the curve lies over; −1: none
  knobs: Record<string, number>;
  levels?: Levels;
  trace?: Traced;
  overTrace?: Traced;
  reference?: Reference; // another loom that this one is compared with
  compared?: Compared;
  band: boolean;
  armed: number; // terminal that a new wire begins at; −1: none
  run: number; // chosen wire; −1: none
  says: string; // spoken politely
  trouble: string; // shown until put away
  newer?: () => void; // takes a newer version of the page
  step: number; // of solder mode
  shelves: number; // part files of the user's own
  habit: "uk" | "us"; // of units and words
}

const initial: State = {
  mode: "open", panel: "table", name: "", text: "", saved: "", mark: "", findings: [], checked: "", readable: false, sketched: "",
  chosen: 0, over: -1, knobs: {}, band: false, armed: -1, run: -1, says: "", trouble: "", step: 0, habit: "uk", shelves: 0,
};

class Store extends EventTarget {
  state: State = initial;

  set(patch: Partial<State>): void {
    this.state = { ...this.state, ...patch };
    this.dispatchEvent(new Event("change"));
  }
}

export const store = new Store();
