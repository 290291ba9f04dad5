import type { Result } from '#lib/result.ts';
import type { HeaderList } from './line.ts';

/** A request as far as its contents are read. Both the framework's requests and those of Node's own server have it. */
export interface Letter {
  readonly headers: HeaderList;
  /** The whole body, or a refusal where it is too long. */
  readonly text: () => Promise<Result<string>>;
}
