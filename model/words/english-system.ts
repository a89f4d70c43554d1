/** Why the operating system refused something, by its code (POSIX, errno.h). */
const why: Readonly<Record<string, string>> = {
  ENOENT: 'There is no such file or folder.',
  ENOTDIR: 'A part of the path is a file where a folder has to be.',
  EISDIR: 'It is a folder, not a file.',
  EEXIST: 'Something else of that name is there already.',
  ENOTEMPTY: 'A folder of that name is there already, and is not empty.',
  EACCES: 'This user may not do that there.',
  EPERM: 'This user may not do that there.',
  EROFS: 'The disk there can only be read.',
  EBUSY: 'It is in use, or a place of the system’s own.',
  EXDEV: 'It would have to go to another disk.',
  ENOSPC: 'The disk is full.',
  EDQUOT: 'This user may not store any more on that disk.',
  ENAMETOOLONG: 'The name is too long.',
  ELOOP: 'The links there lead in a circle.',
  EINVAL: 'That cannot be done with this name.',
  EIO: 'The disk does not do what it is asked.',
  EMFILE: 'Too many files are open.',
  ENFILE: 'Too many files are open.',
  EADDRNOTAVAIL: 'This machine does not have that address.',
  EAFNOSUPPORT: 'This machine has no addresses of that kind.',
  ENOTFOUND: 'No address is known for that name.',
  EAI_AGAIN: 'Whoever tells the addresses of names does not answer.',
};

/** What the operating system says, in words; a code that has none is told itself, to be looked up. */
export const systemWords = {
  why: (code: string | undefined) =>
    why[code ?? ''] ?? (code === undefined ? 'The system does not say why.' : `The system says ${code}.`),
} as const;
