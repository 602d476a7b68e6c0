import { type FileWithHandle, fileOpen, fileSave, supported } from 'browser-fs-access';
import type { DesignDocument } from '../../document/design.ts';
import { type DesignResult, readDesign } from '../../document/read-design.ts';
import { writeDesign } from '../../document/write-design.ts';
import { reasonOf } from '../../jobs/outcome.ts';
import { type DesignStore, markSaved, openDocument, presentOpening } from '../../state/design/design-store.ts';
import type { SaveRecord } from '../../state/kept/autosave-database.ts';
import { type DialogStore, showDialog } from '../../state/session/dialog-store.ts';
import { type NoticesStore, notify } from '../../state/session/notices-store.ts';
import { readDesignFile, suggestedFileName } from './design-file.ts';
import { sortDropped } from './dropped-files.ts';

const DESIGN_FILES = {
  description: 'Legroom design',
  extensions: ['.json'],
  mimeTypes: ['application/json'],
  id: 'legroom-design',
};

/** Work that no file holds. */
const NO_FILE = { fileName: null, saved: null };

interface DeskStores {
  readonly design: DesignStore;
  readonly dialog: DialogStore;
  readonly notices: NoticesStore;
}

/** Opens and saves design files. Where the browser allows it, saving goes to the same file again; else it is a download. */
export class FileDesk {
  readonly #stores: DeskStores;
  /** Files that may be written to again, by the opening they belong to. */
  readonly #handles = new Map<number, FileSystemFileHandle>();

  constructor(stores: DeskStores) {
    this.#stores = stores;
  }

  /** Asks for a file and opens it. */
  async open(): Promise<void> {
    const file = await unlessDismissed(() => fileOpen(DESIGN_FILES));
    if (file) await this.openFile(file);
  }

  /** Asks for a file and reads it without opening it; null when none was chosen. */
  async choose(): Promise<{ readonly fileName: string; readonly design: DesignResult } | null> {
    const file = await unlessDismissed(() => fileOpen(DESIGN_FILES));
    return file && { fileName: file.name, design: await readDesignFile(file) };
  }

  /** Opens a file that was chosen or dropped. The open design stays when the file is unusable, and undo brings it back. */
  async openFile(file: FileWithHandle): Promise<boolean> {
    const read = await readDesignFile(file);
    const { design, dialog, notices } = this.#stores;
    if (!read.ok) {
      showDialog(dialog, { kind: 'faults', fileName: file.name, faults: read.fault });
      return false;
    }
    openDocument(design, read.value, `Open ${file.name}`, { fileName: file.name, saved: read.value });
    if (file.handle) this.#handles.set(design.getState().origin, file.handle);
    notify(notices, `Opened ${file.name}. Undo brings the former design back.`);
    return true;
  }

  /** Takes what was dropped on the page: a design is opened, a mesh offered as the payload, anything else named as unknown. */
  async takeDropped(files: readonly File[]): Promise<void> {
    const { dialog, notices } = this.#stores;
    const dropped = await sortDropped(files);
    switch (dropped.kind) {
      case 'design':
        await this.openFile(dropped.file);
        break;
      case 'mesh':
        showDialog(dialog, { kind: 'mesh', file: dropped.file });
        break;
      case 'refused':
        notify(notices, dropped.message, { tone: 'warning' });
        break;
    }
  }

  /** Starts over from one of the demo designs. */
  startFrom(demo: DesignDocument): void {
    const { design, notices } = this.#stores;
    openDocument(design, demo, `Start from ${demo.name}`, { fileName: null, saved: demo });
    notify(notices, `Started from ${demo.name}. Undo brings the former design back.`);
  }

  /** Opens work that a closed tab left behind; it belongs to no file. */
  openKept({ name, text }: Pick<SaveRecord, 'name' | 'text'>): void {
    const { design, dialog } = this.#stores;
    const read = readDesign(text);
    const title = name || 'kept design';
    if (read.ok) openDocument(design, read.value, `Open ${title}`, NO_FILE);
    else showDialog(dialog, { kind: 'faults', fileName: title, faults: read.fault });
  }

  /** Saves to the file that the design came from, if it can be written to; else as {@link saveAs}. */
  async save(): Promise<void> {
    const { design } = this.#stores;
    await this.#write(this.#handles.get(design.getState().origin) ?? null);
  }

  /** Asks where to save, or downloads where the browser cannot ask. */
  saveAs(): Promise<void> {
    return this.#write(null);
  }

  async #write(handle: FileSystemFileHandle | null): Promise<void> {
    const { design, notices } = this.#stores;
    const { document, origin } = design.getState();
    const fileName = presentOpening(design.getState()).fileName ?? suggestedFileName(document);
    try {
      const blob = new Blob([writeDesign(document)], { type: 'application/json' });
      const written = await unlessDismissed(async () => ({
        handle: await fileSave(blob, { ...DESIGN_FILES, fileName }, handle),
      }));
      if (!written) return;
      if (written.handle) this.#handles.set(origin, written.handle);
      const name = written.handle?.name ?? fileName;
      if (design.getState().origin === origin) markSaved(design, document, name);
      notify(notices, supported ? `Saved ${name}.` : `Downloaded ${name}.`);
    } catch (reason) {
      notify(notices, `Not saved: ${reasonOf(reason)} The design is still open here; try Save as.`, {
        tone: 'warning',
      });
    }
  }
}

/** Null when the person closed the file dialog. */
async function unlessDismissed<Value>(ask: () => Promise<Value>): Promise<Value | null> {
  try {
    return await ask();
  } catch (reason) {
    if (reason instanceof DOMException && reason.name === 'AbortError') return null;
    throw reason;
  }
}
