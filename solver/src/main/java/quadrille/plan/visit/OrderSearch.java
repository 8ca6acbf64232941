package quadrille.plan.visit;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/**
 * The dynamic programme of Held and Karp ("A dynamic programming approach to sequencing problems",
 * 1962) with the bounds of Morin and Marsten ("Branch-and-bound strategies for dynamic
 * programming", 1976): finds the order of steps that costs least, which is the second at which it
 * ends and the prices of its returns and of its first step; of equal ones, the one that ends
 * soonest. It goes layer by layer over the sets of steps done so far; a partial order that cannot
 * be better than a known one is dropped, and of each layer only the most promising are kept, as in
 * beam search (Lowerre, "The HARPY speech recognition system", 1976). What had to be dropped so is
 * remembered as a bound.
 *
 * <p>A partial order is dominated by another over the same steps, with the same groups given, that
 * ends no later even after the worst difference in changeovers, costs no more even if it must come
 * back to where the other is, will be numb no later, and stays numb no shorter.
 */
public final class OrderSearch {
  /** Longer than any visit. */
  public static final int NEVER = 1_000_000;

  private static final long NONE = rank(NEVER, NEVER);

  private final OrderProblem problem;
  private final int width;
  private final long betterThan;
  private final int groups;
  private final int steps;
  private final StepsLeft.Of all;
  private final int[][][] gifts;
  private final int latest;
  private List<Label> next = new ArrayList<>();
  private long leastDropped = Long.MAX_VALUE;
  private int soonest = Integer.MAX_VALUE;

  /**
   * What was found.
   *
   * @param order null where no order was met that keeps numbness, ends in time and is better than
   *     the known one
   * @param end the second at which the last step ends
   * @param rank its {@link OrderSearch#rank rank}; where there is no order, that of the known one
   * @param leastRank no order ranks lower
   * @param soonest no order ends sooner
   */
  public record Found(int @Nullable [] order, int end, long rank, long leastRank, int soonest) {

    /** Whether no order is better, or none is to be found at all. */
    public boolean exact() {
      return leastRank >= rank;
    }

    /** No order costs less. */
    public int bound() {
      return cost(leastRank);
    }
  }

  /** Where an order stands among others: by its cost, then by its end. */
  public static long rank(int cost, int end) {
    return (long) cost << 32 | end;
  }

  private static int cost(long rank) {
    return (int) (rank >>> 32);
  }

  private OrderSearch(OrderProblem problem, int width, long betterThan) {
    this.problem = problem;
    this.width = width;
    this.betterThan = betterThan;
    this.groups = problem.groupSeconds().length;
    this.steps = problem.duration().length;
    this.all = new StepsLeft.Of(problem);
    this.latest = Math.min(problem.latestEnd(), cost(betterThan));
    this.gifts = new int[1 << groups][][];
    for (int given = 0; given < gifts.length; given++) {
      List<int[]> some = new ArrayList<>();
      gifts(new int[0], given, some);
      gifts[given] = some.toArray(new int[0][]);
    }
  }

  /**
   * The best order met.
   *
   * @param width how many partial orders of each length are kept, 1 or more
   */
  public static Found run(OrderProblem problem, int width) {
    return run(problem, width, Long.MAX_VALUE);
  }

  /**
   * The best order met.
   *
   * @param width how many partial orders of each length are kept, 1 or more
   * @param betterThan only orders of a lower rank are sought
   */
  public static Found run(OrderProblem problem, int width, long betterThan) {
    return new OrderSearch(problem, width, betterThan).run();
  }

  /** What can be told from the steps alone, without a search. */
  public static Found bound(OrderProblem problem) {
    StepsLeft.Of all = new StepsLeft.Of(problem);
    StepsLeft none = all.once(0);
    int[] start = new int[problem.groupSeconds().length];
    int onceNumb = none.onceNumb(0, problem.start(), start);
    if (problem.duration().length == 0) {
      return new Found(null, 0, NONE, rank(problem.start(), problem.start()), problem.start());
    }
    int soonest = NEVER;
    int cheapest = NEVER;
    for (long rest = none.open(); rest != 0 && onceNumb < NEVER; rest &= rest - 1) {
      int first = Long.numberOfTrailingZeros(rest);
      StepsLeft left = none.after(first);
      int onward = left.onward(first, 0, problem.start() + problem.duration()[first]);
      int end = Math.max(onward, onceNumb);
      soonest = Math.min(soonest, end);
      cheapest =
          Math.min(cheapest, none.price(-1, first) + Math.max(end, onward + left.more(first)));
    }
    return new Found(null, 0, NONE, rank(cheapest, soonest), soonest);
  }

  /** All ways to give some of the groups that are not given yet in one go. */
  private void gifts(int[] begun, int given, List<int[]> some) {
    some.add(begun);
    for (int g = 0; g < groups; g++) {
      if ((given >>> g & 1) == 0) {
        int[] more = Arrays.copyOf(begun, begun.length + 1);
        more[begun.length] = g;
        gifts(more, given | 1 << g, some);
      }
    }
  }

  /** A partial order. */
  static final class Label {
    private final @Nullable Label before;
    private final int last;
    private final boolean looked;
    private final int given;
    private final int now;
    private final int[] start;
    private final int price;
    private final long estimate;
    private boolean dominated;
    private @Nullable Label nextInState;
    // Until it has been gone on from.
    private @Nullable StepsLeft left;

    Label(
        @Nullable Label before,
        int last,
        boolean looked,
        StepsLeft left,
        int given,
        int now,
        int[] start,
        int price,
        long estimate) {
      this.before = before;
      this.last = last;
      this.looked = looked;
      this.left = left;
      this.given = given;
      this.now = now;
      this.start = start;
      this.price = price;
      this.estimate = estimate;
    }
  }

  private Found run() {
    List<Label> layer = new ArrayList<>();
    layer.add(new Label(null, -1, false, all.once(0), 0, problem.start(), new int[groups], 0, 0));
    int depths = steps + (problem.opening().looks() ? 1 : 0);
    for (int depth = 0; depth < depths; depth++) {
      all.forget();
      for (Label label : layer) {
        goOn(label, Objects.requireNonNull(label.left));
        label.left = null;
      }
      layer = kept();
      if (layer.isEmpty()) {
        return new Found(null, 0, betterThan, Math.min(betterThan, leastDropped), soonest);
      }
    }
    Label best = layer.get(0);
    for (Label label : layer) {
      soonest = Math.min(soonest, label.now);
      if (label.estimate < best.estimate) {
        best = label;
      }
    }
    int[] order = new int[steps];
    int place = steps;
    for (Label at = best; at.before != null; at = at.before) {
      if (!at.looked) {
        order[--place] = at.last;
      }
    }
    return new Found(
        order, best.now, best.estimate, Math.min(best.estimate, leastDropped), soonest);
  }

  private void goOn(Label label, StepsLeft left) {
    if (left.mayLook()) {
      for (int[] gift : gifts[label.given]) {
        look(label, left, gift);
      }
    }
    for (long rest = left.open(); rest != 0; rest &= rest - 1) {
      int step = Long.numberOfTrailingZeros(rest);
      StepsLeft after = left.after(step);
      int price = label.price + left.price(label.last, step);
      for (int[] gift : gifts[label.given]) {
        int giving = left.toLook() ? beforeLook(gift) : 0;
        boolean parts = gift.length > 0 && goesOn(label, step);
        take(label, after, step, gift, price + giving + (parts ? problem.prices().within() : 0));
      }
    }
  }

  private int beforeLook(int[] gift) {
    int price = 0;
    for (int g : gift) {
      price += problem.prices().beforeLook()[g];
    }
    return price;
  }

  /** Whether a needle before a step would come between two of one block. */
  private boolean goesOn(Label label, int step) {
    return label.last >= 0 && problem.goesOn(place(label), step);
  }

  private static int with(int given, int[] gift) {
    int all = given;
    for (int g : gift) {
      all |= 1 << g;
    }
    return all;
  }

  /** When groups begin that are given in one go. */
  private int[] starts(Label label, int[] gift) {
    if (gift.length == 0) {
      return label.start;
    }
    int[] start = label.start.clone();
    int now = label.now;
    for (int g : gift) {
      start[g] = now;
      now += problem.groupSeconds()[g];
    }
    return start;
  }

  private int seconds(int[] gift) {
    int seconds = 0;
    for (int g : gift) {
      seconds += problem.groupSeconds()[g];
    }
    return seconds;
  }

  private void look(Label label, StepsLeft left, int[] gift) {
    int now = label.now + seconds(gift) + problem.opening().lookSeconds();
    StepsLeft after = left.after(steps);
    int price = label.price + beforeLook(gift);
    offer(label, label.last, true, after, with(label.given, gift), now, starts(label, gift), price);
  }

  private void take(Label label, StepsLeft after, int step, int[] gift, int price) {
    int given = with(label.given, gift);
    int[] triples = problem.needs()[step];
    for (int k = 0; k < triples.length; k += 3) {
      if ((given >>> triples[k] & 1) == 0) {
        return;
      }
    }
    int[] start = starts(label, gift);
    int now = label.now + seconds(gift);
    now += label.last < 0 ? 0 : problem.change()[label.last][step];
    for (int k = 0; k < triples.length; k += 3) {
      now = Math.max(now, start[triples[k]] + triples[k + 1]);
    }
    now += problem.duration()[step];
    if (problem.lasting()) {
      for (int k = 0; k < triples.length; k += 3) {
        if (now - start[triples[k]] > triples[k + 2]) {
          return;
        }
      }
    }
    offer(label, step, false, after, given, now, start, price);
  }

  private void offer(
      Label label,
      int last,
      boolean looked,
      StepsLeft left,
      int given,
      int now,
      int[] start,
      int price) {
    int onceNumb = left.onceNumb(given, now, start);
    if (onceNumb == StepsLeft.NEVER) {
      return;
    }
    int onward = left.onward(last, given, now);
    int end = Math.max(onward, onceNumb);
    if (end > problem.latestEnd()) {
      return;
    }
    int cost = price + Math.max(end + left.returnsToCome(last), onward + left.more(last));
    long estimate = rank(cost, end);
    if (estimate < betterThan) {
      offer(new Label(label, last, looked, left, given, now, start, price, estimate), left);
    } else {
      soonest = Math.min(soonest, end);
    }
  }

  private void offer(Label label, StepsLeft left) {
    Label state = left.heads()[label.given];
    if (state == null) {
      // A state's first label stays its head, dominated or not.
      left.heads()[label.given] = label;
      next.add(label);
      return;
    }
    for (Label other = state; other != null; other = other.nextInState) {
      if (!other.dominated && dominates(other, label, left)) {
        return;
      }
    }
    Label before = state;
    for (Label other = state; other != null; other = other.nextInState) {
      if (!other.dominated && dominates(label, other, left)) {
        other.dominated = true;
      }
      if (other.dominated && other != state) {
        before.nextInState = other.nextInState;
      } else {
        before = other;
      }
    }
    label.nextInState = state.nextInState;
    state.nextInState = label;
    next.add(label);
  }

  /**
   * Whether whatever follows the worse one could follow the better one, end no later and cost no
   * more.
   */
  private boolean dominates(Label better, Label worse, StepsLeft left) {
    int ahead = worse.now - better.now;
    int cheaper = worse.price - better.price;
    boolean allGiven = better.given == (1 << groups) - 1;
    if (left.all()) {
      return ahead >= 0 && ahead + cheaper >= 0;
    }
    if (!allGiven && ahead < 0) {
      return false;
    }
    // By how much it is ahead, and cheaper, at the least, once the next step begins.
    int[] gaps = left.gaps(place(better), place(worse));
    int sooner = Math.min(allGiven ? Integer.MAX_VALUE : ahead, ahead + gaps[0]);
    if (sooner < 0) {
      return false;
    }
    int dear = (allGiven ? gaps[1] : gaps[2]) - cheaper;
    int both = ahead + cheaper + gaps[3];
    boolean settled = true;
    for (int g = 0; g < groups; g++) {
      if ((better.given >>> g & 1) != 0 && left.latestReady(g) >= 0) {
        boolean numb = better.start[g] + left.latestReady(g) <= better.now;
        settled &= numb;
        if (!numb && better.start[g] > worse.start[g]) {
          return false;
        }
      }
    }
    // Where there is nothing to wait for, time gained now is gained at the end.
    if (dear > 0 && !(allGiven && settled && both >= 0)) {
      return false;
    }
    if (problem.lasting()) {
      int slack = settled ? sooner : 0;
      for (int g = 0; g < groups; g++) {
        if ((better.given >>> g & 1) != 0
            && left.latestReady(g) >= 0
            && better.start[g] + slack < worse.start[g]
            && better.start[g] + left.leastWornOff(g) < latest) {
          return false;
        }
      }
    }
    return true;
  }

  /** Where a partial order is: at its last step, or at the look after it. */
  private int place(Label label) {
    return label.looked ? steps + label.last : label.last;
  }

  private List<Label> kept() {
    List<Label> all = new ArrayList<>();
    for (Label label : next) {
      if (!label.dominated) {
        all.add(label);
      }
    }
    next = new ArrayList<>();
    if (all.size() > width) {
      all.sort(Comparator.comparingLong(label -> label.estimate));
      leastDropped = Math.min(leastDropped, all.get(width).estimate);
      for (Label label : all.subList(width, all.size())) {
        soonest = Math.min(soonest, (int) label.estimate);
      }
      return new ArrayList<>(all.subList(0, width));
    }
    return all;
  }
}
