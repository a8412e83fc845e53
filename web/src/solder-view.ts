// Solder mode: one step a screen, close-ups, half-screen buttons for dirty
// hands; after each stage the readings to take. Where one is survives a reload;
// the screen is kept awake.
import { html, nothing } from "lit";
import { work } from "./act.js";
import { say } from "./habit.js";
import { Canvas } from "./sketch.js";
import "./stage-view.js";
import { store } from "./store.js";
import { define, View } from "./view.js";
import type { BuildStep } from "./types.gen.js";

/** Done is what is ticked off of one loom: steps by their words, so that an edit of the loom leaves the rest ticked, and stages whose readings were passed. */
interface Done {
  steps: string[];
  stages: string[];
}
const key = () => `loomwright/steps/${store.state.name}/${store.state.loom?.title ?? ""}`;

function ticked(): Done {
  try {
    const kept = JSON.parse(localStorage.getItem(key()) ?? "{}");
    const words = (list: unknown) => (Array.isArray(list) ? list.filter((w) => typeof w === "string") : []);
    return { steps: words(kept.steps), stages: words(kept.stages) };
  } catch {
    return { steps: [], stages: [] };
  }
}

function keep(done: Done): void {
  try {
    localStorage.setItem(key(), JSON.stringify(done));
  } catch {
    // storage is full: the steps still go on
  }
}

class Solder extends View {
  private canvases: Canvas[] = [];
  private drawn?: unknown;
  private awake?: WakeLockSentinel;
  private found = ""; // the loom whose place was looked up
  private checking = -1; // stage whose readings are shown; −1: a step
  private readonly wake = () => void this.keepAwake();

  connectedCallback(): void {
    super.connectedCallback();
    document.addEventListener("visibilitychange", this.wake);
    void this.keepAwake();
  }
  disconnectedCallback(): void {
    document.removeEventListener("visibilitychange", this.wake);
    void this.awake?.release();
    this.awake = undefined;
    super.disconnectedCallback();
  }
  private async keepAwake(): Promise<void> {
    try {
      if (document.visibilityState !== "visible" || this.awake?.released === false) return;
      this.awake = await navigator.wakeLock?.request("screen");
    } catch {
      // refused: the screen dims as usual
    }
    this.requestUpdate();
  }

  protected willUpdate(): void {
    const { loom, step } = this.state;
    if (!loom || this.found === key()) return;
    this.found = key();
    if (!step) this.findPlace();
  }

  /** findPlace goes on where the work was left: at the first step that is not ticked off, or at the readings before it. */
  private findPlace(): void {
    const plan = store.state.loom!.plan;
    const steps = plan.steps ?? [], done = ticked();
    let next = 0;
    while (next < steps.length && done.steps.includes(steps[next].do)) next++;
    const stage = plan.stages?.[steps[next - 1]?.stage];
    if (next > 0 && stage && stage.last === steps[next - 1].number && !done.stages.includes(stage.name)) this.checking = steps[next - 1].stage;
    store.set({ step: next });
  }

  render() {
    const s = this.state;
    const plan = s.loom?.plan;
    const steps = plan?.steps ?? [];
    if (steps.length === 0) return html`<p class="lone">${s.loom ? "This loom has no wire yet: there is nothing to solder. Put wires in on the bench, or let them be found." : "Proving the loom …"}</p>`;
    const i = Math.min(s.step, steps.length);
    if (this.checking >= 0) {
      return html`<div class="solder" @keydown=${this.keys} tabindex="-1">
        <p class="place">After step ${plan!.stages?.[this.checking]?.last} of ${steps.length}</p>
        <progress max=${steps.length} value=${i} aria-label="Steps done"></progress>
        <lw-stage .stage=${this.checking}></lw-stage>
        ${this.halves("On to the next step")}</div>`;
    }
    if (i === steps.length) return this.end();
    const step = steps[i];
    const stage = plan!.stages?.[step.stage];
    const errors = s.findings.some((d) => d.severity === "error");
    return html`<div class="solder" @keydown=${this.keys} tabindex="-1">
      <p class="place">Step ${step.number} of ${steps.length}, ${step.where}${stage ? html` · ${say(stage.name)}` : nothing} ${ticked().steps.includes(step.do) ? html`<strong>✓ done</strong>` : nothing}</p>
      <progress max=${steps.length} value=${i} aria-label="Steps done"></progress>
      ${errors ? html`<p class="caution"><strong>This loom has errors.</strong> Do not solder it before they are mended on the bench.</p>` : nothing}
      ${i === 0 ? html`<lw-cautions></lw-cautions>` : nothing}
      <h1 class="order">${say(step.do)}</h1>
      ${s.sketch ? nothing : html`<p class="lone" role="status">Drawing it …</p>`}
      <div class="views">
        <div class="paper close"></div>
        ${ends(step).map(() => html`<div class="paper end"></div>`)}
      </div>
      <ul class="plain ends">${ends(step).map((e, k) => this.lug(e.term, "AB"[k]))}</ul>
      ${(step.notes ?? []).map((n) => html`<p class="note">Mind: ${say(n)}</p>`)}
      ${step.good ? html`<p class="note good">A good joint: ${say(step.good.replace(/^Good: /, ""))}</p>` : nothing}
      ${this.awake && !this.awake.released ? html`<p class="foot">The screen stays awake while this is open.</p>` : nothing}
      ${this.halves("Done, next")}
    </div>`;
  }

  /** lug says which lug a name means, as the drawing does. */
  private lug(term: number, mark: string) {
    const { loom, sketch } = this.state, name = loom?.terms?.[term]?.name ?? "";
    const at = sketch?.svg?.split(`<title>${name}: `)[1]?.split("</title>")[0] ?? "";
    return at && !/[<&]/.test(at) ? html`<li><strong>${mark}</strong> ${name}: ${say(at)}</li>` : nothing;
  }

  private halves(word: string) {
    return html`<div class="halves"><button @click=${() => this.go(-1)} ?disabled=${this.state.step === 0}>Back</button>
      <button class="done" @click=${() => this.go(1)}>${word}</button></div>`;
  }

  private end() {
    return html`<div class="solder"><h1>Every step is done</h1>
      <p>Before the strings go on: take the readings in <button @click=${() => work("meter")}>meter mode</button> and look at each joint again.</p>
      <lw-cautions></lw-cautions>
      <div class="halves"><button @click=${() => this.go(-1)}>Back</button><button @click=${this.again}>Begin again</button></div></div>`;
  }

  protected updated(): void {
    const s = this.state;
    const step = s.loom?.plan.steps?.[s.step];
    const papers = [...this.querySelectorAll<HTMLElement>(".views > .paper")];
    if (papers.length === 0 || !step || !s.sketch?.svg) return;
    if (this.drawn !== s.sketch || papers.some((p, i) => this.canvases[i]?.host !== p)) {
      this.drawn = s.sketch;
      this.canvases = papers.map((p) => new Canvas(p, s.sketch!.svg!, s.sketch!.spots ?? [], true));
    }
    const tips = ends(step).map((e) => this.canvases[0].tip(step.run, e.term));
    tips.forEach((at, i) => this.canvases[i + 1]?.around(at, 11));
    this.canvases.forEach((c, i) => {
      const term = s.loom!.terms?.[ends(step)[i - 1]?.term]?.name;
      c.svg.removeAttribute("aria-labelledby");
      c.svg.setAttribute("aria-label", i ? `Close-up of ${term}` : say(step.do));
      c.mark({ live: new Set([step.run]), run: -1, armed: -1, focus: -1 });
      if (i === 0) c.closeUp(step.run);
      c.ring(tips.map((at, k): [number[] | undefined, string] => [at, "AB"[k] ?? ""]));
    });
  }

  private go(by: number): void {
    const { step, loom } = store.state;
    const steps = loom?.plan.steps ?? [];
    const now = steps[step], done = ticked();
    if (this.checking >= 0) {
      const stage = loom?.plan.stages?.[this.checking];
      if (by > 0 && stage) done.stages = [...new Set([...done.stages, stage.name])];
      this.checking = -1;
      keep(done);
      if (by > 0) this.requestUpdate();
      else store.set({ step: step - 1 });
    } else if (by > 0 && now) {
      done.steps = [...new Set([...done.steps, now.do])];
      keep(done);
      if (loom?.plan.stages?.[now.stage]?.last === now.number) this.checking = now.stage;
      store.set({ step: step + 1 });
    } else {
      const before = steps[step - 1];
      const closes = before && loom?.plan.stages?.[before.stage]?.last === before.number;
      if (closes) {
        this.checking = before.stage;
        this.requestUpdate();
      } else store.set({ step: Math.max(0, step - 1) });
    }
    window.scrollTo({ top: 0 });
  }

  private again(): void {
    localStorage.removeItem(key());
    store.set({ step: 0 });
  }

  private keys(e: KeyboardEvent): void {
    if (e.target instanceof HTMLInputElement) return;
    if (e.key === "ArrowRight" || e.key === "PageDown") this.go(1);
    else if (e.key === "ArrowLeft" || e.key === "PageUp") this.go(-1);
  }
}

/** ends are the ends of a step that the hand goes to. */
function ends(step: BuildStep) {
  return (step.ends ?? []).filter((e, i, all) => !e.braid && all.findIndex((f) => f.term === e.term) === i).slice(0, 2);
}

define("lw-solder", Solder);
