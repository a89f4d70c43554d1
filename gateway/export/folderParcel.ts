import { open } from 'node:fs/promises';
import { join } from 'node:path';
import { onFileLong } from '../backup/onFile.ts';
import type { Parcel } from './export.ts';

/** Files in a folder. */
export function folderParcel(folder: string): Parcel {
  return {
    file: async (name, write) => {
      const path = join(folder, name);
      const out = await onFileLong(path, () => open(path, 'wx'));
      try {
        await write((bytes) => onFileLong(path, () => out.writeFile(bytes)));
        await onFileLong(path, () => out.sync());
      } finally {
        await out.close();
      }
    },
  };
}
