package quadrille.plan.visit;

import java.util.Arrays;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;

/**
 * An order that is sought: steps that take time, changeovers between them, which steps must come
 * before which, and groups of injections that some of them wait for. Steps are numbers from 0, at
 * most {@link #MOST} of them.
 *
 * @param start seconds before the first step
 * @param duration seconds of each step
 * @param change seconds from one step to another that follows it at once, 0 or more
 * @param before for each step, the steps that must be done before it, as bits
 * @param groupSeconds by group, seconds to give it
 * @param needs by step, the groups waited for as triples of group, seconds from its start until
 *     numb, and seconds from its start until it wears off
 * @param lasting whether a step must end before the numbness that it needs wears off
 * @param changes what changeovers must still come at the least
 * @param prices what an order costs beside its time
 * @param opening what an order may begin with
 * @param latestEnd the second at which the last step must have ended
 */
public record OrderProblem(
    int start,
    int[] duration,
    int[][] change,
    long[] before,
    int[] groupSeconds,
    int[][] needs,
    boolean lasting,
    ChangesToCome changes,
    Prices prices,
    Opening opening,
    int latestEnd) {

  /** The most steps that an order can hold. */
  public static final int MOST = 63;

  /** An order that costs its time alone, and may take as long as it likes. */
  public OrderProblem(
      int start,
      int[] duration,
      int[][] change,
      long[] before,
      int[] groupSeconds,
      int[][] needs,
      boolean lasting,
      ChangesToCome changes) {
    this(
        start,
        duration,
        change,
        before,
        groupSeconds,
        needs,
        lasting,
        changes,
        Prices.none(duration.length, groupSeconds.length),
        Opening.ANY,
        Integer.MAX_VALUE);
  }

  /**
   * What an order costs beside its time, in seconds.
   *
   * @param quadrant by step, where it lies, 0 to 3
   * @param back each return to a quadrant that was left
   * @param first by step, to begin with it
   * @param block by step, its pass of its area
   * @param within injections between two steps of one block, each time
   * @param beforeLook by group, to give it before the look
   */
  public record Prices(
      int[] quadrant, int back, int[] first, int[] block, int within, int[] beforeLook) {
    static Prices none(int steps, int groups) {
      return new Prices(new int[steps], 0, new int[steps], new int[steps], 0, new int[groups]);
    }

    static Prices of(StagingCase staging, int[] members, SetEvaluation.Dosing dosing) {
      return new Prices(
          Arrays.stream(members).map(staging::quadrant).toArray(),
          staging.returnSeconds(),
          Arrays.stream(members).map(step -> staging.worstFirstSeconds(step, members)).toArray(),
          Arrays.stream(members).map(step -> staging.steps().get(step).blockIndex()).toArray(),
          staging.needleWithinAreaSeconds(),
          beforeLook(staging, dosing));
    }

    Prices givenBy(StagingCase staging, SetEvaluation.Dosing dosing) {
      return new Prices(quadrant, back, first, block, within, beforeLook(staging, dosing));
    }

    private static int[] beforeLook(StagingCase staging, SetEvaluation.Dosing dosing) {
      return IntStream.range(0, dosing.groupSeconds().length)
          .map(g -> dosing.deep(g) ? staging.blockBeforeLookSeconds() : 0)
          .toArray();
    }
  }

  /**
   * What an order may begin with.
   *
   * @param first the steps that may be the first, as bits
   * @param teeth by step, its teeth as bits; empty where no look is due
   * @param mostTeeth how many teeth may be worked on, and must be finished, before the look
   * @param lookSeconds how long the look takes, after a step and before the changeover to the next
   */
  public record Opening(long first, int[] teeth, int mostTeeth, int lookSeconds) {
    static final Opening ANY = new Opening(-1, new int[0], 0, 0);

    boolean looks() {
      return teeth.length > 0;
    }

    static Opening of(StagingCase staging, int[] members, SetEvaluation.Dosing dosing) {
      long first = 0;
      for (int i = 0; i < members.length; i++) {
        first |= staging.mayBegin(members[i], dosing) ? 1L << i : 0;
      }
      boolean looks = staging.looks(members);
      if (!looks && first == -1L >>> 64 - members.length) {
        return ANY;
      }
      return new Opening(
          first,
          looks ? Arrays.stream(members).map(staging::teethBits).toArray() : new int[0],
          staging.teethBeforeLook(),
          staging.lookSeconds());
    }
  }

  /** A bound on changeovers. */
  public interface ChangesToCome {

    /**
     * Seconds of changeovers that must still come, whatever the order of the rest.
     *
     * @param done the steps done, as bits
     * @param last the one done last
     */
    int atLeast(long done, int last);

    /**
     * Seconds beyond those that changeovers and returns to a quadrant must still cost together.
     *
     * @param done the steps done, as bits
     * @param last the one done last
     */
    default int more(long done, int last) {
      return 0;
    }

    /**
     * Seconds of changeovers that lie between the first and the last of some steps, whatever their
     * order and whatever comes between them.
     *
     * @param steps as bits
     */
    default int among(long steps) {
      return 0;
    }
  }

  /**
   * Whether it can be told without a search that numbness lasts in an order that takes quadrant by
   * quadrant, each group given before the first step of the first that wants it: even where every
   * changeover is the longest there is, and all is waited for.
   */
  public boolean lastsByQuadrants() {
    int groups = groupSeconds.length;
    int[] ready = new int[groups];
    int[] wornOff = new int[groups];
    int[] wantedIn = new int[groups];
    int[] seconds = new int[4];
    boolean lasts = !opening.looks();
    Arrays.fill(wornOff, Integer.MAX_VALUE);
    for (int i = 0; i < duration.length; i++) {
      int to = i;
      int longest = IntStream.range(0, duration.length).map(j -> change[j][to]).max().orElse(0);
      seconds[prices.quadrant()[i]] += duration[i] + longest;
      for (long rest = before[i]; rest != 0; rest &= rest - 1) {
        int earlier = Long.numberOfTrailingZeros(rest);
        lasts &= prices.quadrant()[earlier] == prices.quadrant()[i];
      }
      for (int k = 0; k < needs[i].length; k += 3) {
        int group = needs[i][k];
        ready[group] = Math.max(ready[group], needs[i][k + 1]);
        wornOff[group] = Math.min(wornOff[group], needs[i][k + 2]);
        wantedIn[group] |= 1 << prices.quadrant()[i];
      }
    }
    for (int g = 0; g < groups; g++) {
      // What is wanted in two quadrants may have the others between them.
      int span = Integer.bitCount(wantedIn[g]) > 1 ? 0b1111 : wantedIn[g];
      int all = 0;
      for (int q = 0; q < 4; q++) {
        all += (span >>> q & 1) != 0 ? seconds[q] : 0;
      }
      for (int other = 0; other < groups; other++) {
        all += (wantedIn[other] & span) != 0 ? groupSeconds[other] + ready[other] : 0;
      }
      lasts &= all <= wornOff[g];
    }
    return lasts;
  }

  /**
   * Whether a needle before a step would come between two of one block.
   *
   * @param place the step done last; that many more than there are steps at the look after it
   */
  boolean goesOn(int place, int step) {
    return place < duration.length && prices.block()[place] == prices.block()[step];
  }

  /** The steps of a visit with one of its dosings, whose numbness has to last. */
  public static OrderProblem of(StagingCase staging, int[] members, SetEvaluation.Dosing dosing) {
    return of(staging, members, dosing, true, true);
  }

  /**
   * @param thorough whether every changeover that must come is looked for, which takes time
   */
  static OrderProblem of(
      StagingCase staging,
      int[] members,
      SetEvaluation.Dosing dosing,
      boolean lasting,
      boolean thorough) {
    int n = members.length;
    int[] duration = new int[n];
    int[][] change = new int[n][n];
    long[] before = new long[n];
    for (int i = 0; i < n; i++) {
      StepFact step = staging.steps().get(members[i]);
      duration[i] = step.step().seconds() + staging.secondsBefore(step);
      for (int j = 0; j < n; j++) {
        change[i][j] = staging.change(members[i], members[j]);
        if (staging.mustPrecede(staging.steps().get(members[j]), step)) {
          before[i] |= 1L << j;
        }
      }
    }
    return new OrderProblem(
        staging.setUp(),
        duration,
        change,
        before,
        dosing.groupSeconds(),
        needs(members, dosing),
        lasting,
        new PlacesToCome(staging, members, before, thorough),
        Prices.of(staging, members, dosing),
        lasting ? Opening.of(staging, members, dosing) : Opening.ANY,
        Integer.MAX_VALUE);
  }

  /** The same steps with another of the dosings of their visit. */
  public OrderProblem givenBy(StagingCase staging, int[] members, SetEvaluation.Dosing dosing) {
    return new OrderProblem(
        start,
        duration,
        change,
        before,
        dosing.groupSeconds(),
        needs(members, dosing),
        lasting,
        changes,
        prices.givenBy(staging, dosing),
        lasting ? Opening.of(staging, members, dosing) : Opening.ANY,
        latestEnd);
  }

  private static int[][] needs(int[] members, SetEvaluation.Dosing dosing) {
    int[][] needs = new int[members.length][];
    for (int i = 0; i < members.length; i++) {
      int @Nullable [] triples = dosing.needs()[members[i]];
      needs[i] = triples == null ? new int[0] : triples;
    }
    return needs;
  }

  /** The same, to end by a second. */
  public OrderProblem endingBy(int second) {
    return with(before, second);
  }

  /** The same, beginning with so many of the steps, in their order. */
  OrderProblem beginningWith(int first) {
    long[] after = before.clone();
    for (int i = 0; i < after.length; i++) {
      after[i] |= (1L << Math.min(i, first)) - 1;
    }
    return with(after, latestEnd);
  }

  private OrderProblem with(long[] precedes, int second) {
    return new OrderProblem(
        start,
        duration,
        change,
        precedes,
        groupSeconds,
        needs,
        lasting,
        changes,
        prices,
        opening,
        second);
  }
}
