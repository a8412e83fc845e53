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
export function dropDraft(): void {
  localStorage.removeItem(draftName());
}
/** latestDraft is this tab's own, or the newest that a closed tab left unsaved. */
export function latestDraft(): Draft | undefined {
  let best: (Draft & { at: number }) | undefined;
  for (const key of Object.keys(localStorage).filter((k) => k.startsWith(draftKey))) {
    try {
      const d = JSON.parse(localStorage.getItem(key) ?? "");
      if (typeof d.text !== "string" || typeof d.name !== "string") continue;
      if (key === draftName()) return d;
      if (d.text !== d.saved && (!best || d.at > best.at)) best = d;
    } catch {
      continue;
    }
  }
  return best;
}
