/**
 * Mean and standard deviation of figures rounded to a thousandth, whatever the order they come in: sums of whole
 * thousandths are exact, so that parts give what one run gives.
 */
export class ExactMoments {
  #count = 0;
  #sum = 0n;
  #squares = 0n;

  add(value: number): void {
    const thousandths = BigInt(Math.round(value * 1000));
    this.#count += 1;
    this.#sum += thousandths;
    this.#squares += thousandths * thousandths;
  }

  get count(): number {
    return this.#count;
  }

  get mean(): number | null {
    return this.#count === 0 ? null : Number(this.#sum) / this.#count / 1000;
  }

  get sd(): number | null {
    if (this.#count < 2) return null;
    const count = BigInt(this.#count);
    const spread = count * this.#squares - this.#sum * this.#sum;
    return Math.sqrt(Number(spread) / this.#count / (this.#count - 1)) / 1000;
  }
}
