package quadrille.cli.render.picture;

import java.util.ArrayList;
import java.util.List;

/**
 * A scale with round ticks.
 *
 * @param from the value at its start
 * @param to the value at its end, above {@code from}
 * @param step from tick to tick
 */
record Scale(int from, int to, int step) {

  private static final int[] STEPS = {1, 2, 5, 10, 20, 30, 60, 120, 240, 600, 1200, 6000};
  private static final int MOST_TICKS = 7;

  /** The finest scale with few ticks that holds all values from the least to the most. */
  static Scale holding(double least, double most) {
    for (int step : STEPS) {
      int from = step * (int) Math.floor(least / step);
      int to = step * (int) Math.ceil(most / step);
      to = Math.max(to, from + step);
      if ((to - from) / step < MOST_TICKS) {
        return new Scale(from, to, step);
      }
    }
    return new Scale((int) Math.floor(least), (int) Math.ceil(most) + 1, (int) (most - least) + 1);
  }

  /** Where a value lies, 0 at the start and 1 at the end. */
  double share(double value) {
    return (value - from) / (to - from);
  }

  List<Integer> ticks() {
    List<Integer> ticks = new ArrayList<>();
    for (int tick = from; tick <= to; tick += step) {
      ticks.add(tick);
    }
    return ticks;
  }
}
