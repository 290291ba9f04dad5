/** What parts a sentence: the spaces, but not the one between a figure and its percent sign. */
const PARTS = /(\d[\d.]* %[.,;:)]*|\s+)/;

/** Words with hyphens in them that belong together: a day, a season, a code, an option of a command. */
const WHOLE = /^\(?(?:-|[A-Z\d]+-)[\w-]*[.,;:)]*$|%/;

/** A sentence whose days, seasons, codes, phone numbers and percentages are never broken over two lines. */
export function Unbroken({ children }: { readonly children: string }) {
  return children.split(PARTS).map((part, at) =>
    WHOLE.test(part) ? (
      // biome-ignore lint/suspicious/noArrayIndexKey: The parts of one sentence have no other name than their place.
      <span key={at} className="unbroken">
        {part}
      </span>
    ) : (
      part
    ),
  );
}
