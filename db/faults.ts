/** Why a file cannot be opened as a book. Each carries a plain sentence for the person; the file is left as it was. */
export class CannotOpenBook extends Error {}

/** There is no file, or it is something else. */
export class NotABook extends CannotOpenBook {}

export class FromNewerVersion extends CannotOpenBook {}

/** The file is a book, but this program may not write to it. */
export class ReadOnlyBook extends CannotOpenBook {}

/** SQLite itself finds the file damaged. */
export class DamagedBook extends CannotOpenBook {}

/** Bringing the book up to date failed; every change of it was taken back. */
export class UpdateFailed extends CannotOpenBook {}
