import { Fragment } from 'react';

/** Words with commas between them, broken over two lines only there: never inside a number that has a hyphen. */
export function Phrases({ of }: { readonly of: readonly string[] }) {
  return of.map((phrase, at) => (
    <Fragment key={phrase}>
      <span className="phrase">{at < of.length - 1 ? `${phrase},` : phrase}</span>{' '}
    </Fragment>
  ));
}
