interface StepHeadProps {
  /** From 1. */
  readonly step: number;
  readonly title: string;
  readonly says: string;
}

/** How many acts lead from an empty book to an open intake. */
const STEPS = 5;

/** Where one is on the way from an empty book to the first lot. */
export function StepHead({ step, title, says }: StepHeadProps) {
  return (
    <>
      <p className="soft">
        Step {step} of {STEPS}
      </p>
      <h1>{title}</h1>
      <p>{says}</p>
    </>
  );
}
