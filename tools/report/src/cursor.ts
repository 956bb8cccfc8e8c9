// SPDX-License-Identifier: MIT
// The one moment that linked charts, the slider and the readout share.

export class Cursor {
  private readonly followers = new Set<(x: number) => void>();

  constructor(public x: number) {}

  moveTo(x: number): void {
    this.x = x;
    for (const follower of this.followers) follower(x);
  }

  /** Returns the function that ends following. */
  follow(follower: (x: number) => void): () => void {
    this.followers.add(follower);
    return () => this.followers.delete(follower);
  }
}
