package quadrille.plan.visit;

/**
 * A visit laid out on its clock, for one order of its steps: where the groups of injections go, and
 * what comes of it.
 *
 * @param set what follows from the steps alone
 * @param dosing which of the set's dosings is used
 * @param order indexes of the steps, in order
 * @param giveAt by group, before which position in the order it is given
 * @param giveRank by group, which is given first where two are given at one position
 * @param chairSeconds from set-up to close
 * @param waitSeconds waiting for numbness
 * @param wornOffSeconds sum over steps of how long they go on after numbness has worn off; 0 in a
 *     legal visit
 * @param outOfOrder pairs of steps of one area whose passes come in the wrong order
 * @param overrunSeconds by how much the booked length exceeds the longest visit; 0 in a legal visit
 * @param lookAt after how many steps the bleeding is looked at; -1 where it is not
 * @param lookRank how many groups are given there before the look
 * @param openingBreaches how often the visit does not begin as it must: numb first, or with few
 *     teeth before the look; 0 in a legal visit
 * @param returns how often it comes back to a quadrant that it has left
 * @param blocksBeforeLookSeconds what the groups with a deep block cost that are given before the
 *     look at the bleeding
 * @param needlesWithinAreaSeconds what injections between two steps of one pass of an area cost
 * @param orderSeconds what the order costs beside its time: returns, a first step that is not in
 *     the worst area, and where the injections are given
 */
public record VisitTimeline(
    SetEvaluation set,
    SetEvaluation.Dosing dosing,
    int[] order,
    int[] giveAt,
    int[] giveRank,
    int chairSeconds,
    int waitSeconds,
    int wornOffSeconds,
    int outOfOrder,
    int overrunSeconds,
    int lookAt,
    int lookRank,
    int openingBreaches,
    int returns,
    int blocksBeforeLookSeconds,
    int needlesWithinAreaSeconds,
    int orderSeconds) {

  /** The same visit with a longer frame. */
  public VisitTimeline withFrame(int seconds) {
    return new VisitTimeline(
        set,
        dosing,
        order,
        giveAt,
        giveRank,
        chairSeconds + seconds,
        waitSeconds,
        wornOffSeconds,
        outOfOrder,
        overrunSeconds,
        lookAt,
        lookRank,
        openingBreaches,
        returns,
        blocksBeforeLookSeconds,
        needlesWithinAreaSeconds,
        orderSeconds);
  }

  /** What it costs where the injections are given. */
  public int givingSeconds() {
    return blocksBeforeLookSeconds + needlesWithinAreaSeconds;
  }

  /** Its time and what its order costs beside it. */
  public int cost() {
    return chairSeconds + orderSeconds;
  }

  /** How many units of hard rules this order breaks, as far as the order decides it. */
  public int broken() {
    return wornOffSeconds + 1000 * (outOfOrder + openingBreaches) + overrunSeconds;
  }

  /**
   * Whether it keeps more rules than another order of the same steps, or the same with an agent
   * that the practice likes better, or costs less with the same agent, or as much and ends sooner.
   */
  public boolean betterThan(VisitTimeline other) {
    if (broken() != other.broken()) {
      return broken() < other.broken();
    }
    int choice = set.dosings().indexOf(dosing);
    int otherChoice = set.dosings().indexOf(other.dosing);
    if (choice != otherChoice) {
      return choice < otherChoice;
    }
    return cost() != other.cost() ? cost() < other.cost() : chairSeconds < other.chairSeconds;
  }

  /** Seconds that must be booked for it, so that it ends in time with the practice's certainty. */
  public int neededSeconds() {
    return chairSeconds - set.workSeconds() + dosing.neededWorkSeconds();
  }

  /** The minutes to book for it, a whole number of units. */
  public int bookedMinutes(StagingCase staging) {
    return staging.bookedMinutes(neededSeconds());
  }
}
