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
  private static final int BUCKETS = 1 << 12;

  private final OrderProblem problem;
  private final int width;
  private final long betterThan;
  private final int groups;
  private final long[] stepsIn = new long[4];
  private final int steps;
  private final long look;
  private final int[] waitsFor;
  private final int[][] handicap;
  private final int[] latestReady;
  private final int[] soonestReady;
  private final int[][] gifts;
  private final @Nullable Label[] buckets = new Label[BUCKETS];
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
    int n = problem.duration().length;
    this.steps = n;
    this.look = problem.opening().looks() ? 1L << n : 0;
    this.waitsFor = new int[n];
    this.handicap = new int[n][n];
    this.latestReady = new int[groups];
    this.soonestReady = new int[groups];
    Arrays.fill(soonestReady, Integer.MAX_VALUE);
    for (int i = 0; i < n; i++) {
      stepsIn[problem.prices().quadrant()[i]] |= 1L << i;
      int[] triples = problem.needs()[i];
      for (int k = 0; k < triples.length; k += 3) {
        int g = triples[k];
        waitsFor[i] |= 1 << g;
        latestReady[g] = Math.max(latestReady[g], triples[k + 1]);
        soonestReady[g] = Math.min(soonestReady[g], triples[k + 1]);
      }
    }
    int[][] change = problem.change();
    for (int a = 0; a < n; a++) {
      for (int b = 0; b < n; b++) {
        for (int x = 0; x < n; x++) {
          handicap[a][b] = Math.max(handicap[a][b], change[a][x] - change[b][x]);
        }
      }
    }
    List<int[]> all = new ArrayList<>();
    gifts(new int[0], all);
    this.gifts = all.toArray(new int[0][]);
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

  /** No order ends before this second: told from the steps alone, without a search. */
  public static int bound(OrderProblem problem) {
    int n = problem.duration().length;
    int changes = Integer.MAX_VALUE;
    int end = problem.start();
    int[] numbFirst = new int[problem.groupSeconds().length];
    int[] waiting = new int[numbFirst.length];
    Arrays.fill(numbFirst, Integer.MAX_VALUE);
    for (int i = 0; i < n; i++) {
      end += problem.duration()[i];
      if (problem.before()[i] == 0) {
        changes = Math.min(changes, problem.changes().atLeast(1L << i, i));
      }
      int[] triples = problem.needs()[i];
      for (int k = 0; k < triples.length; k += 3) {
        numbFirst[triples[k]] = Math.min(numbFirst[triples[k]], triples[k + 1]);
        waiting[triples[k]] += problem.duration()[i];
      }
    }
    end += n == 0 ? 0 : changes;
    for (int seconds : problem.groupSeconds()) {
      end += seconds;
    }
    for (int g = 0; g < numbFirst.length; g++) {
      if (waiting[g] > 0) {
        end = Math.max(end, problem.start() + numbFirst[g] + waiting[g]);
      }
    }
    return end;
  }

  /** The groups that can be given in one go before a step, in every order. */
  private void gifts(int[] begun, List<int[]> all) {
    all.add(begun);
    for (int g = 0; g < groups; g++) {
      int group = g;
      if (Arrays.stream(begun).noneMatch(given -> given == group)) {
        int[] more = Arrays.copyOf(begun, begun.length + 1);
        more[begun.length] = g;
        gifts(more, all);
      }
    }
  }

  /** A partial order. */
  private static final class Label {
    final @Nullable Label before;
    final int last;
    final long done;
    final int given;
    final int now;
    final int[] start;
    final int price;
    final long estimate;
    boolean dominated;
    @Nullable Label nextInState;
    @Nullable Label nextInBucket;

    Label(
        @Nullable Label before,
        int last,
        long done,
        int given,
        int now,
        int[] start,
        int price,
        long estimate) {
      this.before = before;
      this.last = last;
      this.done = done;
      this.given = given;
      this.now = now;
      this.start = start;
      this.price = price;
      this.estimate = estimate;
    }
  }

  private Found run() {
    int n = steps;
    List<Label> layer = new ArrayList<>();
    layer.add(new Label(null, -1, 0, 0, problem.start(), new int[groups], 0, 0));
    for (int depth = 0; depth < n + Long.bitCount(look); depth++) {
      for (Label label : layer) {
        if ((look & ~label.done) != 0 && mayLook(label.done)) {
          for (int[] gift : gifts) {
            extend(label, n, gift);
          }
        }
        for (int j = 0; j < n; j++) {
          if ((label.done >>> j & 1) == 0
              && (problem.before()[j] & ~label.done) == 0
              && mayOpen(label.done, j)) {
            for (int[] gift : gifts) {
              extend(label, j, gift);
            }
          }
        }
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
    int[] order = new int[n];
    Label at = best;
    for (int i = n - 1; i >= 0; ) {
      Label before = Objects.requireNonNull(at.before);
      if ((at.done & ~before.done) != look) {
        order[i--] = at.last;
      }
      at = before;
    }
    return new Found(
        order, best.now, best.estimate, Math.min(best.estimate, leastDropped), soonest);
  }

  /** Whether a step may be taken so early: as the first, or before the look. */
  private boolean mayOpen(long done, int j) {
    OrderProblem.Opening opening = problem.opening();
    if (done == 0 && (opening.first() >>> j & 1) == 0) {
      return false;
    }
    return (look & ~done) == 0
        || Integer.bitCount(teeth(done) | opening.teeth()[j]) <= opening.mostTeeth();
  }

  /** Whether all that was begun is finished, tooth by tooth. */
  private boolean mayLook(long done) {
    int begun = teeth(done);
    boolean finished = begun != 0;
    for (int i = 0; i < steps; i++) {
      finished &= (done >>> i & 1) != 0 || (problem.opening().teeth()[i] & begun) == 0;
    }
    return finished;
  }

  private int teeth(long done) {
    int teeth = 0;
    for (int i = 0; i < steps; i++) {
      teeth |= (done >>> i & 1) != 0 ? problem.opening().teeth()[i] : 0;
    }
    return teeth;
  }

  /** Adds a step, or the look, whose number is one more than the last step's. */
  private void extend(Label label, int j, int[] gift) {
    int given = label.given;
    for (int g : gift) {
      if ((given >>> g & 1) != 0) {
        return;
      }
      given |= 1 << g;
    }
    boolean looking = j == steps;
    int paid = giving(label, j, gift);
    if (!looking && (waitsFor[j] & ~given) != 0) {
      return;
    }
    int now = label.now;
    int[] start = label.start;
    if (gift.length > 0) {
      start = start.clone();
      for (int g : gift) {
        start[g] = now;
        now += problem.groupSeconds()[g];
      }
    }
    if (looking) {
      offer(
          label,
          label.last,
          label.done | look,
          given,
          now + problem.opening().lookSeconds(),
          start,
          paid);
      return;
    }
    if (label.last >= 0) {
      now += problem.change()[label.last][j];
    }
    int[] triples = problem.needs()[j];
    int from = now;
    for (int k = 0; k < triples.length; k += 3) {
      from = Math.max(from, start[triples[k]] + triples[k + 1]);
    }
    now = from + problem.duration()[j];
    if (problem.lasting()) {
      for (int k = 0; k < triples.length; k += 3) {
        if (now - start[triples[k]] > triples[k + 2]) {
          return;
        }
      }
    }
    offer(label, j, label.done | 1L << j, given, now, start, paid + price(label, j));
  }

  private void offer(Label label, int last, long done, int given, int now, int[] start, int paid) {
    int onward = onward(done, last, given, now);
    int end = Math.max(onward, onceNumb(done, given, now, start));
    if (end > problem.latestEnd()) {
      return;
    }
    int price = label.price + paid;
    int cost =
        price
            + Math.max(
                end + returnsToCome(done, last), onward + problem.changes().more(done, last));
    long estimate = rank(cost, end);
    if (estimate < betterThan) {
      offer(new Label(label, last, done, given, now, start, price, estimate));
    } else {
      soonest = Math.min(soonest, end);
    }
  }

  /** What a clinician must come back for costs a return to each quadrant that is left open. */
  private int returnsToCome(long done, int last) {
    int open = 0;
    for (int q = 0; q < stepsIn.length; q++) {
      boolean begun = (stepsIn[q] & done) != 0 && (stepsIn[q] & ~done) != 0;
      open += begun && q != problem.prices().quadrant()[last] ? problem.prices().back() : 0;
    }
    return open;
  }

  /** What it costs to give groups before a step, or before the look. */
  private int giving(Label label, int j, int[] gift) {
    OrderProblem.Prices prices = problem.prices();
    int price = 0;
    if ((look & ~label.done) != 0) {
      for (int g : gift) {
        price += prices.beforeLook()[g];
      }
    }
    boolean parts =
        gift.length > 0
            && j < steps
            && label.last >= 0
            && prices.block()[label.last] == prices.block()[j]
            && !justLooked(label);
    return parts ? price + prices.within() : price;
  }

  private boolean justLooked(Label label) {
    return look != 0 && label.before != null && (label.done & ~label.before.done) == look;
  }

  private int price(Label label, int j) {
    OrderProblem.Prices prices = problem.prices();
    if (label.last < 0) {
      return prices.first()[j];
    }
    int to = prices.quadrant()[j];
    return to != prices.quadrant()[label.last] && (label.done & stepsIn[to]) != 0
        ? prices.back()
        : 0;
  }

  /**
   * When the work can end at the soonest, with nothing to wait for: after the rest of the work, the
   * groups not yet given and the changeovers to come.
   */
  private int onward(long done, int last, int given, int now) {
    int end = now + problem.changes().atLeast(done, last);
    end += (look & ~done) == 0 ? 0 : problem.opening().lookSeconds();
    for (int i = 0; i < problem.duration().length; i++) {
      if ((done >>> i & 1) == 0) {
        end += problem.duration()[i];
      }
    }
    for (int g = 0; g < groups; g++) {
      if ((given >>> g & 1) == 0) {
        end += problem.groupSeconds()[g];
      }
    }
    return end;
  }

  /** When it can end at the soonest: after each group has taken and what waits for it is done. */
  private int onceNumb(long done, int given, int now, int[] start) {
    int[] waiting = new int[groups];
    for (int i = 0; i < problem.duration().length; i++) {
      if ((done >>> i & 1) == 0) {
        int[] triples = problem.needs()[i];
        for (int k = 0; k < triples.length; k += 3) {
          waiting[triples[k]] += problem.duration()[i];
        }
      }
    }
    int end = 0;
    for (int g = 0; g < groups; g++) {
      if (waiting[g] > 0) {
        int from = (given >>> g & 1) == 0 ? now : start[g];
        end = Math.max(end, from + soonestReady[g] + waiting[g]);
      }
    }
    return end;
  }

  private void offer(Label label) {
    long mixed = (label.done * 31 + label.given) * 0x9E3779B97F4A7C15L;
    int bucket = (int) (mixed >>> 52);
    Label state = buckets[bucket];
    while (state != null && (state.done != label.done || state.given != label.given)) {
      state = state.nextInBucket;
    }
    if (state == null) {
      // A state's first label stays its head, dominated or not.
      label.nextInBucket = buckets[bucket];
      buckets[bucket] = label;
      next.add(label);
      return;
    }
    for (Label other = state; other != null; other = other.nextInState) {
      if (!other.dominated && dominates(other, label)) {
        return;
      }
    }
    Label before = state;
    for (Label other = state; other != null; other = other.nextInState) {
      if (!other.dominated && dominates(label, other)) {
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

  /** Whether whatever follows the worse one could follow the better one and end no later. */
  private boolean dominates(Label better, Label worse) {
    int sooner = worse.now - better.now - handicap[better.last][worse.last];
    OrderProblem.Prices prices = problem.prices();
    int there = prices.quadrant()[worse.last];
    // Only what goes on where the worse one is costs the better one a return.
    boolean stays = prices.quadrant()[better.last] == there || (stepsIn[there] & ~worse.done) == 0;
    int back = stays ? 0 : prices.back();
    if (sooner < 0 || better.price + Math.max(back, needle(better, worse)) > worse.price) {
      return false;
    }
    boolean settled = true;
    for (int g = 0; g < groups; g++) {
      if ((better.given >>> g & 1) != 0) {
        boolean numb = better.start[g] + latestReady[g] <= better.now;
        settled &= numb;
        if (!numb && better.start[g] > worse.start[g]) {
          return false;
        }
      }
    }
    if (problem.lasting()) {
      int slack = settled ? sooner : 0;
      for (int g = 0; g < groups; g++) {
        if ((better.given >>> g & 1) != 0 && better.start[g] + slack < worse.start[g]) {
          return false;
        }
      }
    }
    return true;
  }

  /** What a needle given next may cost the better one and not the worse one. */
  private int needle(Label better, Label worse) {
    OrderProblem.Prices prices = problem.prices();
    int block = prices.block()[better.last];
    boolean alike = look == 0 && block == prices.block()[worse.last];
    boolean settled =
        alike || better.given == (1 << groups) - 1 || (stepsOfBlock(block) & ~better.done) == 0;
    return settled ? 0 : prices.within();
  }

  private long stepsOfBlock(int block) {
    long bits = 0;
    for (int i = 0; i < steps; i++) {
      bits |= problem.prices().block()[i] == block ? 1L << i : 0;
    }
    return bits;
  }

  private List<Label> kept() {
    List<Label> all = new ArrayList<>();
    for (Label label : next) {
      if (!label.dominated) {
        all.add(label);
      }
    }
    next = new ArrayList<>();
    Arrays.fill(buckets, null);
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
