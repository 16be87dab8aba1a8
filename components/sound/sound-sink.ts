/** Where the bytes of a sound file go, piece by piece, so that it is never held whole. */
export interface SoundSink {
  write(bytes: Uint8Array<ArrayBuffer>): Promise<void>;
  /** The file is whole. A file on the device is null; one the browser keeps is handed back, to be handed out. */
  close(): Promise<Blob | null>;
  /** Nothing of it is kept. */
  abort(): Promise<void>;
}

/** The part of a browser's file picker used here; not every browser has it. */
interface FilePicker {
  showSaveFilePicker(options: {
    suggestedName: string;
    types: readonly { accept: Readonly<Record<string, readonly string[]>> }[];
  }): Promise<FileSystemFileHandle>;
}

/**
 * The user chooses a file and the sound goes straight to it, where the browser can do that; call it inside an act of the user. Null where it cannot.
 * @throws AbortError when the user thinks better of it
 */
export async function chosenFile(name: string, type: string): Promise<SoundSink | null> {
  const picker = globalThis as unknown as Partial<FilePicker>;
  if (picker.showSaveFilePicker === undefined) return null;
  const handle = await picker.showSaveFilePicker({
    suggestedName: name,
    types: [{ accept: { [type]: [name.slice(name.lastIndexOf("."))] } }],
  });
  const stream = await handle.createWritable();
  return {
    write: (bytes) => stream.write(bytes),
    close: async () => {
      await stream.close();
      return null;
    },
    abort: () => stream.abort(),
  };
}

/** A file of the browser's own, out of memory, where it has such; else pieces that the browser may put there. */
export async function keptFile(type: string): Promise<SoundSink> {
  return (await privateFile(type)) ?? piecesInMemory(type);
}

async function privateFile(type: string): Promise<SoundSink | null> {
  try {
    const folder = await navigator.storage.getDirectory();
    const name = `sound-${crypto.randomUUID()}`;
    const handle = await folder.getFileHandle(name, { create: true });
    const stream = await handle.createWritable();
    return {
      write: (bytes) => stream.write(bytes),
      close: async () => {
        await stream.close();
        const file = await handle.getFile();
        // Gone with the page at the latest; a minute leaves room for slow dialogs, as for every file that is handed out.
        setTimeout(() => void folder.removeEntry(name).catch(() => {}), 120_000);
        return file.slice(0, file.size, type);
      },
      abort: async () => {
        await stream.abort().catch(() => {});
        await folder.removeEntry(name).catch(() => {});
      },
    };
  } catch {
    return null;
  }
}

function piecesInMemory(type: string): SoundSink {
  let pieces: Blob[] = [];
  return {
    write: async (bytes) => {
      pieces.push(new Blob([bytes]));
    },
    close: async () => new Blob(pieces, { type }),
    abort: async () => {
      pieces = [];
    },
  };
}
