import { fingerprintOf } from '../certificate/fingerprint.ts';
import { certificateFile } from '../certificate/paths.ts';
import { openBook } from '../open.ts';
import type { Subcommand } from './io.ts';

export const certificateCommand: Subcommand = {
  name: 'certificate',
  takes: '',
  takesSale: false,
  says: 'makes the certificate for the encrypted line, by an authority of this association',
  async run({ book: file }, voice) {
    // Its libraries take longer to load than most of what this program does: nothing else needs them.
    const { makeCertificate } = await import('../certificate/make.ts');
    const book = openBook(file);
    try {
      const made = await makeCertificate(book, new Date());
      if (!made.ok) {
        voice.warn(made.message);
        return 1;
      }
      const { names, endsOn, newAuthority } = made.value;
      const authority = certificateFile(file, 'authority');
      voice.say(`A certificate for ${names.join(', ')}, until ${endsOn}. Start the server anew.`);
      voice.say(`${newAuthority ? 'Put this file on every phone' : 'The phones keep'}: ${authority}`);
      voice.say(`Its SHA-256 is ${fingerprintOf(file)}.`);
      return 0;
    } finally {
      book.close();
    }
  },
};
