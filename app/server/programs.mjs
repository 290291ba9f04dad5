// Where the build has put what runs outside the framework: the server's side of the book, the command line, the papers.
import { join } from 'node:path';

/** The path of one bundle. Tests make their own, so that they judge the sources as they stand. */
export const programFile = (name) =>
  join(
    process.env.PELTRY_PROGRAMS ?? join(process.cwd(), process.env.PELTRY_DIST ?? '.next', 'programs'),
    `${name}.mjs`,
  );
