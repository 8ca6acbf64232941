package quadrille.plan.visit;

/**
 * Runs one order through the clock, and seeks where to give the groups: before each step some of
 * those not yet given may be given. Later is tried first, and what cannot end in time any more is
 * dropped, so little is really run. With up to four groups, where a practice numbs both sides in
 * one visit, that may still be too much; so no more than a number of places is looked at, and the
 * best met until then is taken.
 */
final class VisitClock {
  /** Places to look at for a layout that is kept; with two groups hardly ever so many are met. */
  private static final int MANY = 3000;

  /** Places to look at for a shift that most likely gains nothing. */
  private static final int FEW = 300;

  /** The look beside the groups that are yet to come, as a bit. */
  private static final int LOOK = 1 << 30;

  private final StagingCase staging;
  private final SetEvaluation set;
  private final SetEvaluation.Dosing dosing;
  private final int[] order;
  private final int frameSeconds;
  private final int lookAt;
  private final int groups;
  private final int[] firstNeed;
  private final int[] firstReady;
  private final int[] restFrom;
  private final int[] at;
  private final int[] rank;
  private final int[] start;
  private final int[] given;
  private final Begun begun;
  private int bestWornOff = Integer.MAX_VALUE;
  private int bestCost = Integer.MAX_VALUE;
  private int bestEnd = Integer.MAX_VALUE;
  private int bestWait;
  private int lookRank;
  private int bestLookRank;
  private int[] bestAt = new int[0];
  private int[] bestRank = new int[0];
  private boolean placed;
  private int looked;
  private int limit = MANY;
  private boolean ended;
  private int latestEnd = Integer.MAX_VALUE;

  /**
   * @param frameSeconds the visit's frame beyond what every visit has
   * @param lookAt after how many steps the bleeding is looked at; -1 where it is not
   */
  VisitClock(
      StagingCase staging,
      SetEvaluation set,
      SetEvaluation.Dosing dosing,
      int[] order,
      int frameSeconds,
      int lookAt) {
    this(staging, set, dosing, order, frameSeconds, lookAt, new int[0], Begun.NOTHING);
  }

  /**
   * @param given by group, before which position it has been given already, and so stays; -1 where
   *     it has not. Empty where the visit has not begun
   * @param begun what is over, before which nothing more can be given
   */
  VisitClock(
      StagingCase staging,
      SetEvaluation set,
      SetEvaluation.Dosing dosing,
      int[] order,
      int frameSeconds,
      int lookAt,
      int[] given,
      Begun begun) {
    this.staging = staging;
    this.set = set;
    this.dosing = dosing;
    this.order = order;
    this.frameSeconds = frameSeconds;
    this.lookAt = lookAt;
    this.groups = dosing.groupSeconds().length;
    this.at = new int[groups];
    this.rank = new int[groups];
    this.start = new int[groups];
    this.firstNeed = new int[groups];
    this.firstReady = new int[groups];
    this.restFrom = new int[order.length + 1];
    restFrom[order.length] = set.closeSeconds(staging);
    for (int i = order.length - 1; i >= 0; i--) {
      restFrom[i] = restFrom[i + 1] + workAt(i) + changeBefore(i);
      int[] needs = dosing.needs()[order[i]];
      if (needs != null) {
        for (int k = 0; k < needs.length; k += 3) {
          firstNeed[needs[k]] = i;
          firstReady[needs[k]] = needs[k + 1];
        }
      }
    }
    this.begun = begun;
    this.given = given.clone();
    for (int g = 0; g < given.length; g++) {
      this.given[g] = Math.min(given[g], firstNeed[g]);
    }
  }

  private int workAt(int position) {
    StepFact fact = staging.steps().get(order[position]);
    return fact.step().seconds() + staging.secondsBefore(fact);
  }

  private int changeBefore(int position) {
    return position == 0 ? 0 : staging.change(order[position - 1], order[position]);
  }

  /** Whether it costs less than what is known of other orders, or keeps numbness longer. */
  boolean beats(VisitTimeline known) {
    bestWornOff = known.wornOffSeconds();
    int most = known.cost() - orderSeconds() - frameSeconds;
    bestCost = most;
    bestEnd = 0;
    placed = true;
    ended = true;
    limit = FEW;
    if (known.overrunSeconds() == 0) {
      latestEnd = latestEnd(staging.longestSeconds());
    }
    place(0, staging.setUp(), 0, 0, 0, toCome(), 0, false);
    return bestCost < most || bestWornOff < known.wornOffSeconds();
  }

  /**
   * What costs least of that for which no more than so many seconds are booked; what costs least of
   * all where nothing so short is met.
   *
   * @param numbedFirst whether all groups are given before the first step
   */
  VisitTimeline best(boolean numbedFirst, int longestSeconds) {
    VisitTimeline cheapest = best(numbedFirst);
    if (cheapest.neededSeconds() <= longestSeconds || numbedFirst) {
      return cheapest;
    }
    VisitClock within =
        new VisitClock(staging, set, dosing, order, frameSeconds, lookAt, given, begun);
    within.latestEnd = latestEnd(longestSeconds);
    within.bestWornOff = cheapest.wornOffSeconds();
    within.ended = true;
    within.place(0, staging.setUp(), 0, 0, 0, toCome(), 0, false);
    return within.placed ? within.timeline() : cheapest;
  }

  /** The end at which no more than so many seconds must be booked. */
  private int latestEnd(int longestSeconds) {
    return longestSeconds == Integer.MAX_VALUE
        ? longestSeconds
        : longestSeconds + set.workSeconds() - dosing.neededWorkSeconds() - frameSeconds;
  }

  private VisitTimeline best(boolean numbedFirst) {
    int notGiven = toCome();
    if (numbedFirst || (groups <= 2 && given.length == 0 && !set.hopeless(staging))) {
      place(0, staging.setUp(), 0, 0, 0, notGiven, 0, true);
    }
    if (!numbedFirst) {
      // Known now is a good end; sought is the latest place that costs as little or less.
      placed = false;
      place(0, staging.setUp(), 0, 0, 0, notGiven, 0, false);
    }
    return timeline();
  }

  private VisitTimeline timeline() {
    int working = set.workSeconds();
    int chair = bestEnd + frameSeconds;
    int needed = chair - working + dosing.neededWorkSeconds();
    return new VisitTimeline(
        set,
        dosing,
        order,
        bestAt,
        bestRank,
        chair,
        bestWait,
        bestWornOff,
        outOfOrder(),
        Math.max(0, needed - staging.longestSeconds()),
        lookAt,
        bestLookRank,
        openingBreaches(),
        staging.returns(order),
        blocksBeforeLook(),
        bestCost - bestEnd - blocksBeforeLook(),
        orderSeconds() + bestCost - bestEnd);
  }

  /** All groups, and the look. */
  private int toCome() {
    return (1 << groups) - 1 | (lookAt < 0 ? 0 : LOOK);
  }

  private int openingBreaches() {
    boolean begins = order.length == 0 || staging.mayBegin(order[0], dosing);
    boolean looks = lookAt < 0 || staging.placesToLook(order).contains(lookAt);
    return (begins ? 0 : 1) + (looks ? 0 : 1);
  }

  private int orderSeconds() {
    return order.length == 0
        ? 0
        : staging.returnSeconds() * staging.returns(order)
            + staging.worstFirstSeconds(order[0], order);
  }

  /** What the deep blocks cost that come before the look. */
  private int blocksBeforeLook() {
    int seconds = 0;
    for (int g = 0; g < groups; g++) {
      boolean before = bestAt[g] < lookAt || (bestAt[g] == lookAt && bestRank[g] < bestLookRank);
      seconds += before && dosing.deep(g) ? staging.blockBeforeLookSeconds() : 0;
    }
    return seconds;
  }

  /** What it costs to give a group at a position. */
  private int price(int group, int position, int notGiven, int givenHere) {
    boolean deep = (notGiven & LOOK) != 0 && dosing.deep(group);
    boolean parts =
        givenHere == 0
            && position > 0
            && position != lookAt
            && staging.steps().get(order[position - 1]).blockIndex()
                == staging.steps().get(order[position]).blockIndex();
    return (deep ? staging.blockBeforeLookSeconds() : 0)
        + (parts ? staging.needleWithinAreaSeconds() : 0);
  }

  /**
   * Goes on from before a position.
   *
   * @param now the second at which the step before has ended and the groups given here are in
   * @param paid what giving groups has cost so far, beside its time
   * @param notGiven groups not yet given, as bits
   * @param givenHere how many groups were given at this position
   * @param early only the earliest place of all is tried, for a first good end
   */
  private void place(
      int position,
      int now,
      int wait,
      int wornOff,
      int paid,
      int notGiven,
      int givenHere,
      boolean early) {
    // The first way through is always run to its end, so that there is something to take.
    if ((++looked > limit && ended) || tooLate(position, now, wornOff, paid, notGiven)) {
      return;
    }
    if (position == order.length) {
      finish(now, wait, wornOff, paid);
      return;
    }
    boolean toLook = position == lookAt && (notGiven & LOOK) != 0;
    int needed = (neededAt(position) | givenAt(position)) & notGiven;
    if (!toLook && needed == 0 && ((notGiven & ~LOOK) == 0 || !early)) {
      step(position, now, wait, wornOff, paid, notGiven, early);
    }
    boolean looked = begun.lookedAt() >= 0;
    if (toLook && (looked || (givenAt(position) & notGiven) == 0)) {
      lookRank = givenHere;
      int seen = now + staging.lookSeconds();
      place(position, seen, wait, wornOff, paid, notGiven & ~LOOK, givenHere + 1, early);
    }
    // Where the visit breaks a rule whatever its order, groups are simply given when needed, unless
    // all of them are asked for before the first step.
    int giveable = set.hopeless(staging) && !early ? needed : notGiven;
    for (int g = 0; g < groups; g++) {
      if ((giveable >>> g & 1) != 0
          && mayGive(g, position)
          && !(toLook && looked && given[g] < 0)) {
        at[g] = position;
        rank[g] = givenHere;
        start[g] = now;
        int given = now + dosing.groupSeconds()[g];
        int price = paid + price(g, position, notGiven, givenHere);
        place(position, given, wait, wornOff, price, notGiven & ~(1 << g), givenHere + 1, early);
      }
    }
  }

  private void step(
      int position, int now, int wait, int wornOff, int paid, int notGiven, boolean early) {
    int ready = now + changeBefore(position);
    int[] needs = dosing.needs()[order[position]];
    int from = ready;
    int lost = 0;
    if (needs != null) {
      for (int k = 0; k < needs.length; k += 3) {
        from = Math.max(from, start[needs[k]] + needs[k + 1]);
      }
    }
    int end = from + workAt(position);
    if (needs != null) {
      for (int k = 0; k < needs.length; k += 3) {
        lost += Math.max(0, end - start[needs[k]] - needs[k + 2]);
      }
    }
    place(position + 1, end, wait + from - ready, wornOff + lost, paid, notGiven, 0, early);
  }

  /** The groups that have been given here, as bits. */
  private int givenAt(int position) {
    int here = 0;
    for (int g = 0; g < given.length; g++) {
      here |= given[g] == position ? 1 << g : 0;
    }
    return here;
  }

  private boolean mayGive(int group, int position) {
    return given.length == 0
        || (given[group] < 0
            ? position >= Math.min(begun.over(), firstNeed[group])
            : position == given[group]);
  }

  private int neededAt(int position) {
    int[] needs = dosing.needs()[order[position]];
    int groupsNeeded = 0;
    if (needs != null) {
      for (int k = 0; k < needs.length; k += 3) {
        groupsNeeded |= 1 << needs[k];
      }
    }
    return groupsNeeded;
  }

  /** Whether nothing that follows can be better than what is known. */
  private boolean tooLate(int position, int now, int wornOff, int paid, int notGiven) {
    if (wornOff != bestWornOff) {
      return wornOff > bestWornOff;
    }
    int end = now + restFrom[position] + ((notGiven & LOOK) == 0 ? 0 : staging.lookSeconds());
    for (int g = 0; g < groups; g++) {
      if ((notGiven >>> g & 1) != 0) {
        end += dosing.groupSeconds()[g];
      }
    }
    for (int g = 0; g < groups; g++) {
      if (firstNeed[g] >= position) {
        int from = (notGiven >>> g & 1) != 0 ? now : start[g];
        int need = firstNeed[g];
        end = Math.max(end, from + firstReady[g] + restFrom[need] - changeBefore(need));
      }
    }
    if (end > latestEnd) {
      return true;
    }
    return end + paid != bestCost ? end + paid > bestCost : placed ? end >= bestEnd : end > bestEnd;
  }

  private void finish(int now, int wait, int wornOff, int paid) {
    int end = now + set.closeSeconds(staging);
    placed = true;
    ended = true;
    bestWornOff = wornOff;
    bestCost = end + paid;
    bestEnd = end;
    bestWait = wait;
    bestAt = at.clone();
    bestRank = rank.clone();
    bestLookRank = lookRank;
  }

  /** H5 within a visit: pairs of steps of one area of which the later pass comes first. */
  private int outOfOrder() {
    int pairs = 0;
    for (int i = 0; i < order.length; i++) {
      StepFact first = staging.steps().get(order[i]);
      for (int j = i + 1; j < order.length; j++) {
        StepFact second = staging.steps().get(order[j]);
        if (staging.mustPrecede(second, first)) {
          pairs++;
        }
      }
    }
    return pairs;
  }
}
