/** The order in which a section's bars are played: its times, each with its ending. */
import type { SectionPlan } from './lesson.ts';

/**
 * Indexes in the plan's bars. The pick-up is played the first time alone. A time without an ending of its own takes the last
 * ending before it, and where there is none goes on without one.
 */
export function playedOrder({ bars, times }: Pick<SectionPlan, 'bars' | 'times'>): readonly number[] {
  const indexes = bars.map((_, index) => index);
  const own = indexes.filter((index) => bars[index].ending === undefined);
  const order: number[] = [];
  for (let time = 1; time <= times; time++) {
    const endings = bars.flatMap(({ ending }) => (ending !== undefined && ending <= time ? [ending] : []));
    const taken = endings.length === 0 ? undefined : Math.max(...endings);
    order.push(...own.filter((index) => time === 1 || bars[index].number > 0));
    order.push(...indexes.filter((index) => taken !== undefined && bars[index].ending === taken));
  }
  return order;
}
