package quadrille.plan.visit;

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
 */
public record OrderProblem(
    int start,
    int[] duration,
    int[][] change,
    long[] before,
    int[] groupSeconds,
    int[][] needs,
    boolean lasting,
    ChangesToCome changes) {

  /** The most steps that an order can hold. */
  public static final int MOST = 63;

  /** A bound on changeovers. */
  public interface ChangesToCome {

    /**
     * Seconds of changeovers that must still come, whatever the order of the rest.
     *
     * @param done the steps done, as bits
     * @param last the one done last
     */
    int atLeast(long done, int last);
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
    int[][] needs = new int[n][];
    for (int i = 0; i < n; i++) {
      StepFact step = staging.steps().get(members[i]);
      duration[i] = step.step().seconds() + (step.step().gel() ? staging.gelSeconds() : 0);
      for (int j = 0; j < n; j++) {
        change[i][j] = staging.change(members[i], members[j]);
        if (staging.mustPrecede(staging.steps().get(members[j]), step)) {
          before[i] |= 1L << j;
        }
      }
      int @Nullable [] triples = dosing.needs()[members[i]];
      needs[i] = triples == null ? new int[0] : triples;
    }
    return new OrderProblem(
        staging.setUp(),
        duration,
        change,
        before,
        dosing.groupSeconds(),
        needs,
        lasting,
        new PlacesToCome(staging, members, before, thorough));
  }
}
