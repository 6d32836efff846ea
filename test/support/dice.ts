/** Random numbers that a seed decides, the same on every machine. */
export class Dice {
  private state: number;

  constructor(seed: number) {
    this.state = seed >>> 0;
  }

  /** A whole number from 0 to 4294967295: a counter whose bits are mixed until they look like noise. */
  private next(): number {
    this.state = (this.state + 0x9e3779b9) >>> 0;
    let mixed = this.state;
    mixed = Math.imul(mixed ^ (mixed >>> 16), 0x21f0aaad);
    mixed = Math.imul(mixed ^ (mixed >>> 15), 0x735a2d97);
    return (mixed ^ (mixed >>> 15)) >>> 0;
  }

  /** A whole number from `least` to `most`, both included. */
  between(least: number, most: number): number {
    return least + (this.next() % (most - least + 1));
  }

  pick<Item>(items: readonly Item[]): Item {
    return items[this.next() % items.length];
  }

  /** True in `percent` of a hundred throws. */
  chance(percent: number): boolean {
    return this.next() % 100 < percent;
  }

  /** `count` of the items, each at most once, in the order of the list. */
  some<Item>(items: readonly Item[], count: number): Item[] {
    const left = items.map((_, i) => i);
    while (left.length > count) left.splice(this.next() % left.length, 1);
    return left.map((i) => items[i]);
  }

  shuffled<Item>(items: readonly Item[]): Item[] {
    const left = [...items];
    const result: Item[] = [];
    while (left.length > 0) result.push(...left.splice(this.next() % left.length, 1));
    return result;
  }
}
