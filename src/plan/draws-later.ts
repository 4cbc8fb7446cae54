// Draws put off: of the levers and of the bad years alike.
import { addMonths, type Month, monthText, parseMonth } from '#calendar/month.ts'
import type { Draw } from './draw-plan.ts'

/**
 * What has begun by `begun` goes on, steps that are to come come so many months later, and a ramp under way reaches its end so much
 * later.
 */
export const drawsLater = (draw: Draw, months: number, begun: Month): Draw => {
  const later = (text: string) => monthText(addMonths(parseMonth(text)!, months))
  const isToCome = (text: string) => parseMonth(text)! > begun
  if (draw.policy === 'steps')
    return {
      ...draw,
      steps: draw.steps.map((step) => (isToCome(step.from) ? { ...step, from: later(step.from) } : step)),
    }
  if (!drawsAreToCome(draw, begun)) return draw
  if (draw.policy !== 'ramp') return { ...draw, from: later(draw.from) }
  return { ...draw, from: isToCome(draw.from) ? later(draw.from) : draw.from, to: later(draw.to) }
}

/** Whether anything of the draws is left that could come later. */
export const drawsAreToCome = (draw: Draw, begun: Month): boolean => {
  if (draw.policy === 'steps') return draw.steps.some(({ from }) => parseMonth(from)! > begun)
  return parseMonth(draw.policy === 'ramp' ? draw.to : draw.from)! > begun
}
