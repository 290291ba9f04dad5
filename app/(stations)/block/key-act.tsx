interface KeyActProps {
  /** The key of the keypad that does the same. */
  readonly sign?: string;
  readonly words: string;
  readonly act: () => void;
}

/** A button that names its key. */
export function KeyAct({ sign, words, act }: KeyActProps) {
  return (
    <button type="button" onClick={act}>
      {sign && <kbd>{sign}</kbd>} {words}
    </button>
  );
}
