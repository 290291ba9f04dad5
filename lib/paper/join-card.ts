/** The card on the wall by which a device joins the hall: where, what to compare, and the steps of each kind of device. */
import { DEVICES, FIREFOX } from '#lib/network/devices.ts';
import { clean } from '#lib/settlement/spelling.ts';
import type { PaperGround } from './facts.ts';

export interface JoinCard {
  readonly paper: 'join-card';
  readonly title: string;
  readonly issuedOn: string;
  readonly association: { readonly name: string };
  /** What the file is called behind its title. */
  readonly sale: { readonly name: string };
  /** `http://192.168.1.10:3000/join`, which is also in the code. */
  readonly address: string;
  readonly remarks: readonly string[];
  /** The six words; empty where nothing is encrypted. */
  readonly words: string;
  readonly devices: readonly { readonly name: string; readonly steps: readonly string[] }[];
  readonly behind: readonly string[];
}

export interface JoinFacts {
  readonly open: string;
  /** Empty while there is no encrypted line. */
  readonly secure: string;
  readonly words: string;
}

/** `open` and `secure` are the addresses of now, as `http://192.168.1.10:3000`. */
export function joinCard({ association, issuedOn }: PaperGround, { open, secure, words }: JoinFacts): JoinCard {
  const address = `${open}/join`;
  return {
    ...{ paper: 'join-card', title: 'Join the hall', issuedOn, address, words, sale: { name: address } },
    association: { name: clean(association.name) },
    remarks: [
      'Everybody: join the Wi-Fi of the hall, and photograph the code or type the address.',
      `For the Board and the prices nothing else is needed: ${open}/board`,
    ],
    devices: secure === '' ? [] : [...DEVICES, { name: 'Firefox on a computer', steps: [FIREFOX] }],
    behind:
      secure === ''
        ? []
        : [
            'Then press Test the encrypted line on that page. It says what is missing, also where the clock is wrong.',
            `Sign in at ${secure} with the one-time code that the office gives you.`,
            'The names of menus differ between devices. Ask the office where a step is not there.',
          ],
  };
}
