// A balanced entry on one side: the only way to get one is through `balanceEntry`, which says what is wrong at which field.

export const entrySources = [
  'form',
  'crossing',
  'receipt',
  'standing',
  'statement',
  'opening',
  'reversal',
  'import',
] as const
export type EntrySource = (typeof entrySources)[number]
