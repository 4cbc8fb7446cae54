// The answers that chance gives, by the name of their question.
import type { Claim } from './claim.ts'
import type { Cushion } from './cushion.ts'
import type { Draw } from './draw-answer.ts'
import type { DropMarket } from './drop-market.ts'
import type { Frontier } from './frontier.ts'
import type { Insurance } from './insurance.ts'
import type { SlowDown } from './slow-down.ts'
import type { StartWith } from './start-with.ts'
import type { Ways } from './ways/ways-answer.ts'

export type ChanceAnswer =
  | Draw
  | Frontier
  | StartWith
  | Cushion
  | Claim
  | SlowDown
  | Insurance
  | Ways
  | DropMarket
export type ChanceQuestion = ChanceAnswer['question']
