// What a farm's pages and the plan say of a year whose work nobody is there to do.
import { formatCount } from '#money/format.ts'

/** Null where no hours in a hundred are missing. */
export const undoneSays = (
  year: number | string,
  { undone, worked }: { undone: number; worked: number },
): string | null =>
  undone > 0.01 * (undone + worked)
    ? `In ${year} the farm has ${formatCount(Math.round(undone))} hours more than its crew can work, and the plan hires nobody: ${Math.round((100 * worked) / (worked + undone))}% of its work is done, and its enterprises bring so much less.`
    : null
