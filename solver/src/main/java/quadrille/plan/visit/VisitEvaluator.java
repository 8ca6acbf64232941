package quadrille.plan.visit;

import java.util.List;
import java.util.Objects;

/**
 * Evaluates a visit: what follows from a set of steps, and what the clock shows for an order of
 * them. Sets are remembered, so one is for one thread at a time; orders are not, since there are
 * too many.
 */
public final class VisitEvaluator {
  private final StagingCase staging;
  private final SetEvaluator sets;
  private final int frameSeconds;

  /** For visits before which nothing was given on their day. */
  public VisitEvaluator(StagingCase staging) {
    this(staging, Commitments.NONE);
  }

  /**
   * @param earlier what was given before on the visit's day
   */
  VisitEvaluator(StagingCase staging, Commitments earlier) {
    this.staging = staging;
    this.sets = new SetEvaluator(staging, earlier);
    this.frameSeconds = 0;
  }

  private VisitEvaluator(VisitEvaluator other, int frameSeconds) {
    this.staging = other.staging;
    this.sets = other.sets;
    this.frameSeconds = frameSeconds;
  }

  /** The same for visits of a longer frame. */
  VisitEvaluator withFrame(int seconds) {
    return new VisitEvaluator(this, seconds);
  }

  public StagingCase staging() {
    return staging;
  }

  /** What follows from a visit's steps, whatever their order. */
  public SetEvaluation set(StepSet steps) {
    return sets.evaluate(steps);
  }

  /** Seconds of changeovers among some steps, at the least. */
  public int leastChanges(StepSet steps) {
    int[] members = steps.members();
    return new PlacesToCome(staging, members, new long[members.length], false)
        .among(-1L >>> 64 - members.length);
  }

  /**
   * Lays a visit out. The groups of injections go where the visit costs least with numbness
   * lasting, and as late as that allows, so that nobody is numb before it pays; where it would then
   * be too long for the practice or the patient, where it costs least of what is not.
   */
  public VisitTimeline layout(int... order) {
    return layout(order, false, staging.longestSeconds());
  }

  /** The same where no more than so many seconds may be booked. */
  public VisitTimeline layoutWithin(int longestSeconds, int[] order) {
    return layout(order, false, longestSeconds);
  }

  /** Lays a visit out with all its injections given before the first step. */
  public VisitTimeline layoutNumbedFirst(int[] order) {
    return layout(order, true, staging.longestSeconds());
  }

  /** The same of a visit that has begun. */
  VisitTimeline layoutBegun(int[] order, Begun begun) {
    return layout(order, false, staging.longestSeconds(), begun);
  }

  private VisitTimeline layout(int[] order, boolean numbedFirst, int longestSeconds) {
    return layout(order, numbedFirst, longestSeconds, Begun.NOTHING);
  }

  private VisitTimeline layout(int[] order, boolean numbedFirst, int longestSeconds, Begun begun) {
    StepSet members = StepSet.EMPTY;
    for (int index : order) {
      members = members.with(index);
    }
    SetEvaluation set = set(members);
    VisitTimeline best = null;
    for (SetEvaluation.Dosing dosing : set.dosings()) {
      VisitTimeline layout = laidOut(order, numbedFirst, longestSeconds, set, dosing, begun);
      if (best == null || layout.wornOffSeconds() < best.wornOffSeconds()) {
        best = layout;
      }
      if (best.wornOffSeconds() == 0) {
        break;
      }
    }
    if (best == null) {
      throw new IllegalStateException("A set of steps has no dosing: " + set);
    }
    return best;
  }

  /**
   * With the look where the visit costs least, and of these where it ends soonest; but rather where
   * it is not too long.
   */
  private VisitTimeline laidOut(
      int[] order,
      boolean numbedFirst,
      int longestSeconds,
      SetEvaluation set,
      SetEvaluation.Dosing dosing,
      Begun begun) {
    int[] positions =
        begun.equals(Begun.NOTHING)
            ? new int[0]
            : dosing.cover().groups().stream()
                .mapToInt(group -> begun.given().getOrDefault(group.quadrant(), -1))
                .toArray();
    VisitTimeline best = null;
    for (int look : looks(order, begun)) {
      VisitTimeline layout =
          new VisitClock(staging, set, dosing, order, frameSeconds, look, positions, begun)
              .best(numbedFirst, longestSeconds);
      boolean better =
          best == null
              || layout.wornOffSeconds() < best.wornOffSeconds()
              || (layout.wornOffSeconds() == best.wornOffSeconds()
                  && rank(layout, longestSeconds) < rank(best, longestSeconds));
      best = better ? layout : best;
    }
    return Objects.requireNonNull(best);
  }

  private static long rank(VisitTimeline layout, int longestSeconds) {
    long rank = OrderSearch.rank(layout.cost(), layout.chairSeconds());
    return layout.neededSeconds() > longestSeconds ? Long.MAX_VALUE / 2 + rank / 2 : rank / 2;
  }

  /**
   * Where the bleeding may be looked at, or has been; as soon as there is something to see where
   * that is nowhere right.
   */
  private List<Integer> looks(int[] order, Begun begun) {
    if (!staging.looks(order)) {
      return List.of(-1);
    }
    if (begun.lookedAt() >= 0) {
      return List.of(begun.lookedAt());
    }
    List<Integer> places =
        staging.placesToLook(order).stream().filter(place -> place >= begun.over()).toList();
    return places.isEmpty() ? List.of(Math.max(1, begun.over())) : places;
  }

  /**
   * Whether another order of the same steps, with the same agent, ends sooner or keeps numbness
   * longer; much quicker than laying it out.
   */
  boolean improves(int[] order, VisitTimeline than) {
    return looks(order, Begun.NOTHING).stream()
        .anyMatch(
            look ->
                new VisitClock(staging, than.set(), than.dosing(), order, frameSeconds, look)
                    .beats(than));
  }
}
