// What a check of a books file is, and what it says when a promise is broken.
export interface Check {
  name: string
  /** SQL that counts what is looked at. */
  counted: string
  /** SQL that answers with rows of `at` and `message` for what is wrong. */
  wrong: string
}

export interface Finding {
  /** Which promise is broken, like `entry-balances`. */
  check: string
  /** What it was found at: an entry, a crossing, an account and month. */
  at: string
  message: string
}
