// Where looms are kept: a folder behind `loomwright serve`, or this browser.
// Each kept text has a mark; saving with an old mark is refused, so that two
// tabs, or a tab and an editor, never overwrite each other unasked.
export interface Kept {
  text: string;
  mark: string;
}
export interface Clash {
  clash: Kept;
}
export interface Shelf {
  readonly kind: "folder" | "browser";
  list(): Promise<string[]>;
  read(name: string): Promise<Kept | undefined>;
  /** save returns the new mark, or what is there instead. An empty mark: a new file. */
  save(name: string, text: string, mark: string): Promise<string | Clash>;
  remove?(name: string): Promise<void>;
}

class Folder implements Shelf {
  readonly kind = "folder";
  constructor(private names: string[]) {}

  private url(name: string): string {
    return "api/looms/" + name.split("/").map(encodeURIComponent).join("/");
  }
  async list(): Promise<string[]> {
    const r = await fetch("api/looms", { cache: "no-store" }).catch(() => undefined);
    if (r?.ok) this.names = (await r.json()).looms;
    return this.names;
  }
  async read(name: string): Promise<Kept | undefined> {
    const r = await fetch(this.url(name), { cache: "no-store" });
    if (!r.ok) return undefined;
    return { text: await r.text(), mark: r.headers.get("ETag") ?? "" };
  }
  async save(name: string, text: string, mark: string): Promise<string | Clash> {
    const headers: Record<string, string> = { "Content-Type": "application/yaml" };
    if (mark) headers["If-Match"] = mark;
    else headers["If-None-Match"] = "*";
    const r = await fetch(this.url(name), { method: "PUT", body: text, headers });
    if (r.status === 412) return { clash: (await this.read(name)) ?? { text: "", mark: "" } };
    if (!r.ok) throw new Error((await r.text()).trim() || `not saved (${r.status})`);
    return r.headers.get("ETag") ?? "";
  }
}

/** shelved are the part files of the user's own that the server has, by path. */
export async function shelved(): Promise<Record<string, string>> {
  try {
    const r = await fetch("api/shelf", { cache: "no-store" });
    return r.ok && r.headers.get("Content-Type")?.startsWith("application/json") ? (await r.json()).files : {};
  } catch {
    return {};
  }
}

const prefix = "loomwright/loom/";

class Browser implements Shelf {
  readonly kind = "browser";

  async list(): Promise<string[]> {
    return Object.keys(localStorage).filter((k) => k.startsWith(prefix)).map((k) => k.slice(prefix.length)).sort();
  }
  async read(name: string): Promise<Kept | undefined> {
    const raw = localStorage.getItem(prefix + name);
    if (raw === null) return undefined;
    try {
      const k = JSON.parse(raw);
      return typeof k.text === "string" ? { text: k.text, mark: String(k.mark) } : undefined;
    } catch {
      return undefined;
    }
  }
  async save(name: string, text: string, mark: string): Promise<string | Clash> {
    const there = await this.read(name);
    if (there && there.mark !== mark && there.text !== text) return { clash: there };
    const next = crypto.randomUUID();
    localStorage.setItem(prefix + name, JSON.stringify({ text, mark: next }));
    void navigator.storage?.persist?.();
    return next;
  }
  async remove(name: string): Promise<void> {
    localStorage.removeItem(prefix + name);
  }
}

/** findShelf is the served folder where there is one, and this browser otherwise. */
export async function findShelf(): Promise<Shelf> {
  try {
    const r = await fetch("api/looms", { cache: "no-store" });
    if (r.ok && r.headers.get("Content-Type")?.startsWith("application/json")) return new Folder((await r.json()).looms);
  } catch {
    // no server: this browser
  }
  return new Browser();
}

/** The draft survives a reload, a crash and a dead battery. */
export interface Draft {
  name: string;
  text: string;
  mark: string;
  saved: string;
  mode: string; // what was being done with it
}
const draftKey = "loomwright/draft";
const mine = "loomwright/tab";

function draftName(): string {
  let tab = sessionStorage.getItem(mine);
  if (!tab) sessionStorage.setItem(mine, (tab = crypto.randomUUID()));
  return `${draftKey}/${tab}`;
}
export function keepDraft(d: Draft): void {
  const text = JSON.stringify({ ...d, at: Date.now() });
  try {
    localStorage.setItem(draftName(), text);
  } catch {
    // full: the page says so when it saves
  }
}
function draftAt(key: string): (Draft & { at: number }) | undefined {
  try {
    const d = JSON.parse(localStorage.getItem(key) ?? "null");
    return d && typeof d.text === "string" && typeof d.name === "string" ? d : undefined;
  } catch {
    return undefined;
  }
}
/** ownDraft is what this tab had open, saved or not. */
export const ownDraft = (): Draft | undefined => draftAt(draftName());

const week = 7 * 24 * 3600 * 1000;

/** A left draft is one that is nobody's by now: of a closed tab, or put aside for another loom. */
export interface Left extends Draft {
  key: string;
}

/** leftDraft is the newest that was left unsaved or in the middle of soldering. */
export function leftDraft(): Left | undefined {
  let best: (Left & { at: number }) | undefined;
  for (const key of Object.keys(localStorage).filter((k) => k.startsWith(draftKey) && k !== draftName())) {
    const d = draftAt(key);
    if (!d) continue;
    const open = d.text !== d.saved || d.mode === "solder";
    if (!open && Date.now() - d.at > week) localStorage.removeItem(key);
    else if (open && (!best || d.at > best.at)) best = { ...d, key };
  }
  return best;
}

export function dropLeft(d: Left): void {
  localStorage.removeItem(d.key);
}

/** putAside keeps an unsaved loom whose place another one takes. */
export function putAside(d: Draft): void {
  try {
    localStorage.setItem(`${draftKey}/left-${crypto.randomUUID()}`, JSON.stringify({ ...d, at: Date.now() }));
  } catch {
    // full: undo cannot bring it back either
  }
}
