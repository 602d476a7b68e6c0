/** Powers of ten that a double holds exactly. */
const EXACT_POWERS = Array.from({ length: 23 }, (_, n) => 10 ** n);

/** Largest whole number up to which a double holds every one. */
const EXACT_WHOLE = 2 ** 53;

/** Longest word that is kept for a message. */
const LONGEST_SHOWN = 40;

const [TAB, SPACE, PLUS, MINUS, DOT, ZERO, NINE, SMALL_E] = [0x09, 0x20, 0x2b, 0x2d, 0x2e, 0x30, 0x39, 0x65];
const LINE_FEED = 0x0a;
const RETURN = 0x0d;

/** Letters a to z of both cases, by one bit. */
const SMALL = 0x20;

/** The words of an STL text, one after the other, each byte looked at once. */
export class StlWords {
  private readonly bytes: Uint8Array;
  private start = 0;
  private end = 0;

  constructor(bytes: Uint8Array) {
    this.bytes = bytes;
  }

  /** Goes to the next word; false at the end of the text. */
  next(): boolean {
    const { bytes } = this;
    let at = this.end;
    while (at < bytes.length && isBlank(bytes[at])) at++;
    this.start = at;
    while (at < bytes.length && !isBlank(bytes[at])) at++;
    this.end = at;
    return at > this.start;
  }

  /** Goes to the end of the line: what follows there is a name. */
  skipLine(): void {
    const { bytes } = this;
    while (this.end < bytes.length && bytes[this.end] !== LINE_FEED && bytes[this.end] !== RETURN) this.end++;
  }

  /** Whether the word is this one, written in small or capital letters. @param word small letters */
  is(word: string): boolean {
    if (this.end - this.start !== word.length) return false;
    for (let n = 0; n < word.length; n++) if ((this.bytes[this.start + n] | SMALL) !== word.charCodeAt(n)) return false;
    return true;
  }

  /** Share of the text that lies behind. */
  share(): number {
    return this.end / this.bytes.length;
  }

  /** The word itself, cut where it is very long. */
  text(): string {
    const shown = this.bytes.subarray(this.start, Math.min(this.end, this.start + LONGEST_SHOWN));
    return new TextDecoder('latin1').decode(shown);
  }

  /** The word as a decimal number; NaN where it is none. Digits up to 2^53 with a power of ten up to 22 need one rounding only. */
  number(): number {
    const { bytes, end } = this;
    let at = this.start;
    const negative = bytes[at] === MINUS;
    if (negative || bytes[at] === PLUS) at++;
    let whole = 0;
    let digits = 0;
    let power = 0;
    let behindPoint = false;
    for (; at < end; at++) {
      const byte = bytes[at];
      if (byte >= ZERO && byte <= NINE) {
        whole = 10 * whole + (byte - ZERO);
        digits++;
        if (behindPoint) power--;
      } else if (byte === DOT && !behindPoint) behindPoint = true;
      else break;
    }
    if (digits === 0) return Number.NaN;
    if (at < end) {
      if ((bytes[at] | SMALL) !== SMALL_E) return Number.NaN;
      at++;
      const down = bytes[at] === MINUS;
      if (at < end && (down || bytes[at] === PLUS)) at++;
      if (at === end) return Number.NaN;
      let exponent = 0;
      for (; at < end; at++) {
        const byte = bytes[at];
        if (byte < ZERO || byte > NINE) return Number.NaN;
        exponent = Math.min(10 * exponent + (byte - ZERO), EXACT_WHOLE);
      }
      power += down ? -exponent : exponent;
    }
    if (whole > EXACT_WHOLE || Math.abs(power) >= EXACT_POWERS.length) return this.slowNumber();
    const size = power < 0 ? whole / EXACT_POWERS[-power] : whole * EXACT_POWERS[power];
    return negative ? -size : size;
  }

  private slowNumber(): number {
    return Number(new TextDecoder('latin1').decode(this.bytes.subarray(this.start, this.end)));
  }
}

const isBlank = (byte: number): boolean => byte === SPACE || (byte >= TAB && byte <= RETURN);
