// The only clock the pages see; tests set it.
export interface Clock {
  now(): Date
}
