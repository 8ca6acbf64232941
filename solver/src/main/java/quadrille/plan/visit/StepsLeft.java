package quadrille.plan.visit;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/**
 * What follows from which steps of an order are done, whatever order they were done in; reckoned
 * once for each such set.
 */
final class StepsLeft {
  /** No order can end: numbness wears off before what needs it is done. */
  static final int NEVER = Integer.MAX_VALUE;

  private static final int UNKNOWN = -1;

  /** More seconds than any difference between two visits. */
  private static final int FAR = 100_000_000;

  private final Of of;
  private final long done;
  private final long left;
  private final long next;
  private final long open;
  private final boolean toLook;
  private final boolean mayLook;
  private final boolean parted;
  private final long beforeLook;
  private final int work;
  private final int begunQuadrants;
  private final int openQuadrants;
  private final int[] windows;
  private final int[] latestReady;
  private final int[] leastWornOff;
  private final int[] changes;
  private final int[] more;
  private final @Nullable StepsLeft[] after;
  private final int[] @Nullable [] @Nullable [] gaps;
  private final OrderSearch.@Nullable Label[] heads;

  private StepsLeft(Of of, long done) {
    OrderProblem problem = of.problem;
    int n = of.steps;
    this.of = of;
    this.done = done;
    this.left = of.all & ~done;
    boolean looking = (of.look & ~done) != 0;
    int teeth = 0;
    long begun = 0;
    for (long rest = looking ? done : 0; rest != 0; rest &= rest - 1) {
      int i = Long.numberOfTrailingZeros(rest);
      begun |= of.linked[i];
      teeth |= of.linkedTeeth[i];
    }
    this.toLook = looking;
    this.beforeLook = begun & left;
    this.mayLook = begun != 0 && beforeLook == 0;
    int seconds = looking ? problem.opening().lookSeconds() : 0;
    long may = 0;
    long opens = 0;
    boolean others = false;
    for (long rest = left; rest != 0; rest &= rest - 1) {
      int i = Long.numberOfTrailingZeros(rest);
      seconds += problem.duration()[i];
      boolean fits =
          !looking || Integer.bitCount(teeth | of.linkedTeeth[i]) <= problem.opening().mostTeeth();
      others |= fits && (begun >>> i & 1) == 0;
      if ((problem.before()[i] & left) == 0) {
        may |= 1L << i;
        opens |= fits ? 1L << i : 0;
      }
    }
    this.work = seconds;
    this.next = may;
    this.open = done == 0 ? opens & problem.opening().first() : opens;
    this.parted = looking && begun != 0 && !others;
    this.latestReady = new int[of.groups];
    this.leastWornOff = new int[of.groups];
    this.windows = windows();
    this.begunQuadrants = quadrants(done & of.all);
    this.openQuadrants = begunQuadrants & quadrants(left);
    this.changes = new int[n];
    this.more = new int[n];
    Arrays.fill(changes, UNKNOWN);
    Arrays.fill(more, UNKNOWN);
    this.after = new StepsLeft[n + 1];
    this.gaps = new int[2 * n][][];
    this.heads = new OrderSearch.Label[1 << of.groups];
  }

  /** All steps of one problem. */
  static final class Of {
    private final OrderProblem problem;
    private final int steps;
    private final int groups;
    private final long all;
    private final long look;
    private final long[] linked;
    private final int[] linkedTeeth;
    private final int[][] ready;
    private final int[][] wornOff;
    private final List<Window> windows = new ArrayList<>();
    private final Map<Long, StepsLeft> known = new HashMap<>();

    /** Some of the steps that wait for a group. */
    private record Window(int group, long steps) {}

    Of(OrderProblem problem) {
      this.problem = problem;
      this.steps = problem.duration().length;
      this.groups = problem.groupSeconds().length;
      this.all = steps == 0 ? 0 : -1L >>> 64 - steps;
      this.look = problem.opening().looks() ? 1L << steps : 0;
      this.linked = new long[steps];
      this.linkedTeeth = new int[steps];
      if (look != 0) {
        link();
      }
      this.ready = new int[groups][steps];
      this.wornOff = new int[groups][steps];
      for (int[] row : ready) {
        Arrays.fill(row, UNKNOWN);
      }
      for (int i = 0; i < steps; i++) {
        int[] triples = problem.needs()[i];
        for (int k = 0; k < triples.length; k += 3) {
          ready[triples[k]][i] = triples[k + 1];
          wornOff[triples[k]][i] = triples[k + 2];
        }
      }
      for (int g = 0; g < groups; g++) {
        TreeSet<Long> some = new TreeSet<>();
        for (int i = 0; i < steps; i++) {
          if (ready[g][i] >= 0) {
            some.add(readyFrom(g, ready[g][i]));
            some.add(wornOffBy(g, wornOff[g][i]));
          }
        }
        for (long mask : some) {
          windows.add(new Window(g, mask));
        }
      }
    }

    /** Steps are linked that share a tooth, and so are those that each of two is linked to. */
    private void link() {
      int[] teeth = problem.opening().teeth();
      for (int i = 0; i < steps; i++) {
        int all = teeth[i];
        int before = 0;
        long some = 0;
        while (all != before) {
          before = all;
          for (int j = 0; j < steps; j++) {
            if ((teeth[j] & all) != 0) {
              all |= teeth[j];
              some |= 1L << j;
            }
          }
        }
        linked[i] = some;
        linkedTeeth[i] = all;
      }
    }

    private long readyFrom(int group, int second) {
      long some = 0;
      for (int i = 0; i < steps; i++) {
        some |= ready[group][i] >= second ? 1L << i : 0;
      }
      return some;
    }

    private long wornOffBy(int group, int second) {
      long some = 0;
      for (int i = 0; i < steps; i++) {
        some |= ready[group][i] >= 0 && wornOff[group][i] <= second ? 1L << i : 0;
      }
      return some;
    }

    /** What is left once some steps, and the look, are done, as bits. */
    StepsLeft once(long done) {
      StepsLeft left = known.get(done);
      if (left == null) {
        left = new StepsLeft(this, done);
        known.put(done, left);
      }
      return left;
    }

    /** Forgets all that was asked about. */
    void forget() {
      known.clear();
    }
  }

  /**
   * For each group, and some of the steps left that wait for it: the group, seconds from its start
   * until the first of them can begin, until the last must have ended, and seconds that they take.
   */
  private int[] windows() {
    int[] found = new int[4 * of.windows.size()];
    int used = 0;
    Arrays.fill(latestReady, UNKNOWN);
    Arrays.fill(leastWornOff, NEVER);
    for (Of.Window window : of.windows) {
      int ready = Integer.MAX_VALUE;
      int wornOff = 0;
      int seconds = 0;
      for (long rest = window.steps() & left; rest != 0; rest &= rest - 1) {
        int i = Long.numberOfTrailingZeros(rest);
        int readyHere = of.ready[window.group()][i];
        int wornOffHere = of.wornOff[window.group()][i];
        ready = Math.min(ready, readyHere);
        wornOff = Math.max(wornOff, wornOffHere);
        seconds += of.problem.duration()[i];
        latestReady[window.group()] = Math.max(latestReady[window.group()], readyHere);
        leastWornOff[window.group()] = Math.min(leastWornOff[window.group()], wornOffHere);
      }
      if (wornOff > 0) {
        found[used++] = window.group();
        found[used++] = ready;
        found[used++] = wornOff;
        found[used++] = seconds + of.problem.changes().among(window.steps() & left);
      }
    }
    return Arrays.copyOf(found, used);
  }

  long done() {
    return done;
  }

  /** The first of the partial orders that have done these steps, by the groups given. */
  OrderSearch.@Nullable Label[] heads() {
    return heads;
  }

  boolean all() {
    return left == 0 && (of.look & ~done) == 0;
  }

  /** Whether the bleeding is still to be looked at. */
  boolean toLook() {
    return toLook;
  }

  /** Whether the look may come now: all that was begun is finished, tooth by tooth. */
  boolean mayLook() {
    return mayLook;
  }

  /** Steps that may come now, as bits. */
  long open() {
    return open;
  }

  /** Steps that may come now, or once the bleeding has been looked at, as bits. */
  long next() {
    return next;
  }

  /** What is left after one more step, or after the look, whose number is that of no step. */
  StepsLeft after(int step) {
    StepsLeft known = after[step];
    if (known == null) {
      known = of.once(done | 1L << step);
      after[step] = known;
    }
    return known;
  }

  /** When the last step that waits for a group is ready, from its start; negative where none is. */
  int latestReady(int group) {
    return latestReady[group];
  }

  /** When numbness that is still needed first wears off, from the group's start. */
  int leastWornOff(int group) {
    return leastWornOff[group];
  }

  /** Seconds of changeovers that must still come. */
  private int changes(int last) {
    if (changes[last] == UNKNOWN) {
      reckonChanges(last);
    }
    return changes[last];
  }

  /** Seconds beyond those that changeovers and returns must still cost together. */
  int more(int last) {
    changes(last);
    return more[last];
  }

  private void reckonChanges(int last) {
    OrderProblem.ChangesToCome bound = of.problem.changes();
    if (!parted || beforeLook == 0 || beforeLook == left) {
      changes[last] = bound.atLeast(done, last);
      more[last] = bound.more(done, last);
      return;
    }
    // All that was begun comes before the look, all else after it.
    long others = left & ~beforeLook;
    int least = Integer.MAX_VALUE;
    int dearest = Integer.MAX_VALUE;
    for (long rest = beforeLook; rest != 0; rest &= rest - 1) {
      int atLook = Long.numberOfTrailingZeros(rest);
      int later = bound.atLeast(done | beforeLook, atLook);
      least = Math.min(least, later);
      dearest = Math.min(dearest, later + bound.more(done | beforeLook, atLook));
    }
    changes[last] = bound.atLeast(done | others, last) + least;
    more[last] = bound.more(done | others, last) + dearest - least;
  }

  /**
   * When the work can end at the soonest, with nothing to wait for: after the rest of the work, the
   * groups not yet given and the changeovers to come.
   */
  int onward(int last, int given, int now) {
    int end = now + work + changes(last);
    for (int g = 0; g < of.groups; g++) {
      end += (given >>> g & 1) == 0 ? of.problem.groupSeconds()[g] : 0;
    }
    return end;
  }

  /**
   * When it can end at the soonest: after each group has taken and what waits for it is done.
   * {@link #NEVER} where it wears off before.
   */
  int onceNumb(int given, int now, int[] start) {
    int end = 0;
    for (int k = 0; k < windows.length; k += 4) {
      boolean isGiven = (given >>> windows[k] & 1) != 0;
      int from = isGiven ? start[windows[k]] : now;
      int ends = Math.max(isGiven ? now : 0, from + windows[k + 1]) + windows[k + 3];
      if (of.problem.lasting() && ends - from > windows[k + 2]) {
        return NEVER;
      }
      end = Math.max(end, ends);
    }
    return end;
  }

  private int quadrants(long steps) {
    int some = 0;
    for (long rest = steps; rest != 0; rest &= rest - 1) {
      some |= 1 << of.problem.prices().quadrant()[Long.numberOfTrailingZeros(rest)];
    }
    return some;
  }

  /** What a clinician must come back for costs a return to each quadrant that is left open. */
  int returnsToCome(int last) {
    OrderProblem.Prices prices = of.problem.prices();
    return prices.back() * Integer.bitCount(openQuadrants & ~(1 << prices.quadrant()[last]));
  }

  /**
   * What it costs beside its time to go on with a step.
   *
   * @param last the step done last; negative for none
   */
  int price(int last, int step) {
    OrderProblem.Prices prices = of.problem.prices();
    if (last < 0) {
      return prices.first()[step];
    }
    int to = prices.quadrant()[step];
    return to != prices.quadrant()[last] && (begunQuadrants >>> to & 1) != 0 ? prices.back() : 0;
  }

  /**
   * What it means to be at one place and not at another, at the least over all steps that may come
   * next: seconds by which that step begins sooner; what is paid more for it, at the most, without
   * and with the price of a needle before it; seconds and price together.
   *
   * @param better the step done last; that many more than there are steps at the look after it
   * @param worse the other place
   */
  int[] gaps(int better, int worse) {
    int[] @Nullable [] row = gaps[better];
    if (row == null) {
      row = new int[gaps.length][];
      gaps[better] = row;
    }
    int[] known = row[worse];
    if (known == null) {
      known = reckonGaps(better, worse);
      row[worse] = known;
    }
    return known;
  }

  private int[] reckonGaps(int better, int worse) {
    OrderProblem problem = of.problem;
    int[] found = {FAR, -FAR, -FAR, FAR};
    for (long rest = next; rest != 0; rest &= rest - 1) {
      int x = Long.numberOfTrailingZeros(rest);
      int at = worse % of.steps;
      int other = better % of.steps;
      int here = problem.change()[at][x] - problem.change()[other][x];
      int paid = price(at, x) - price(other, x);
      boolean needle = problem.goesOn(better, x) && !problem.goesOn(worse, x);
      found[0] = Math.min(found[0], here);
      found[1] = Math.max(found[1], -paid);
      found[2] = Math.max(found[2], (needle ? problem.prices().within() : 0) - paid);
      found[3] = Math.min(found[3], here + paid);
    }
    return found;
  }
}
