/** Words by which two people compare a certificate, instead of 64 hexadecimal digits. */

/** 256 short words that are hard to take for one another: a byte is a word. The order may never change. */
export const WORDS: readonly string[] = [
  'acorn amber anchor apple apron arrow aspen autumn bacon badge badger bagel banjo barn basket beach bear beaver',
  'bell bench berry bonnet book boot bottle bowl bread brick bridge broom brush bucket butter button cabin cable',
  'cake camel camp candle canoe canvas carpet carrot castle cedar chain chair cheese cherry chest circle clock',
  'cloud clover cobra coffee comet copper coral corn cotton cousin cradle cream creek crown daisy dawn deer desk',
  'dinner doctor dollar donkey door dragon dream drum duck eagle elbow engine fabric falcon farm father fence fern',
  'ferry fiddle field finger flag flame flour flower forest fork frog garden garlic gate ginger glass globe goat',
  'gold grape grass gravel hammer harbor hat hazel heron hill honey horse house icicle igloo island ivory jacket',
  'jelly jewel jungle kettle kite kitten ladder lake lamp leaf lemon letter lily lion lizard lumber magnet maple',
  'marble market meadow melon mirror mitten moon moose moss mother mouse music napkin needle nest night north',
  'nutmeg oak ocean olive onion orange otter oven owl oyster paddle palace paper parrot peach peanut pebble pencil',
  'pepper piano pickle pigeon pillow pirate planet pocket pond pony potato puppet purple quarry quilt rabbit radio',
  'rain raven ribbon river robin rocket rope rose rubber saddle sailor salad salmon scarf school shadow shell ship',
  'shovel silver sister sky snow soap spider spoon spring squash star stone storm sugar summer sunset swan table',
  'teapot tiger timber tomato tower tractor train tulip tunnel turkey turtle valley velvet violin wagon walnut',
  'water whale wheat willow window winter wolf yellow zebra',
].flatMap((line) => line.split(' '));

/** How many words are compared: 48 bits, each of them slow to try (see `wordsOf` in db/certificate/names.ts). */
export const WORDS_COMPARED = 6;

/** The words of the first six bytes. */
export function wordsOfBytes(bytes: Uint8Array): string {
  return [...bytes.slice(0, WORDS_COMPARED)].map((byte) => WORDS[byte]).join(' ');
}

/** Words as somebody types them: in any case, with any marks between. */
export function wordsTyped(typed: string): string {
  return typed
    .toLowerCase()
    .split(/[^a-z]+/)
    .filter((word) => word !== '')
    .join(' ');
}
