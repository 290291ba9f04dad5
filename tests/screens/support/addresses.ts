/** Every address of the application and the methods it takes, read from its files. */
import { files, read } from '#tests/tidy/tree.ts';

export interface Address {
  readonly path: string;
  readonly method: 'GET' | 'POST';
}

/** A part in brackets is filled with x, a group in parentheses has no part in an address. */
function addressOf(file: string): string {
  const folder = file.replace(/^app\/?/, '').replace(/\/?[^/]+$/, '');
  return `/${folder.replace(/\(\w+\)\/?/g, '').replace(/\[\w+\]/g, 'x')}`;
}

export const PAGES: readonly string[] = files(/^app\/(.*\/)?page\.tsx$/).map(addressOf);

/** The route handlers, each method by itself. A method of which this list knows nothing fails the reading. */
export const ROUTES: readonly Address[] = files(/^app\/.*\/route\.ts$/).flatMap((file) => {
  const methods = [...read(file).matchAll(/^export (?:async )?(?:function|const) ([A-Z]+)\b/gm)].map(
    ([, name]) => name,
  );
  if (methods.length === 0) throw new Error(`${file} exports no method that could be read.`);
  return methods.map((method) => {
    if (method !== 'GET' && method !== 'POST') throw new Error(`${file} takes ${method}: say who may.`);
    return { path: addressOf(file), method };
  });
});
