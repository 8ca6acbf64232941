package quadrille.plan.visit;

import java.util.HashMap;
import java.util.Map;

/**
 * Changeovers that must still come in a visit. Every place (an area with an insert) not yet entered
 * must be entered: with a tip change where its insert is new or must come back, else with at least
 * a move; and its aspects are met one after another.
 */
final class PlacesToCome implements OrderProblem.ChangesToCome {
  private final long[] before;
  private final boolean looksForReturns;
  private final int[] insertOf;
  private final int[] placeOf;
  private final long[] insertSteps;
  private final long[] placeSteps;
  private final long[] placeAspects;
  private final long[] stretchSteps;
  private final long[] quadrantSteps = new long[4];
  private final int[] stretchOf;
  private final int tip;
  private final int move;
  private final int turn;
  private final int again;

  /**
   * @param members steps of the visit, by index
   * @param before for each of them, those that must come before it, as bits
   * @param looksForReturns whether an insert that must be put on again is counted, which takes time
   */
  PlacesToCome(StagingCase staging, int[] members, long[] before, boolean looksForReturns) {
    this.before = before;
    this.looksForReturns = looksForReturns;
    int n = members.length;
    this.insertOf = new int[n];
    this.placeOf = new int[n];
    this.tip = staging.practice().minutes().tipChangeSeconds().asInt();
    this.move = Math.min(tip, staging.practice().minutes().repositionAreaSeconds().asInt());
    this.turn = Math.min(move, staging.practice().minutes().repositionAspectSeconds().asInt());
    // To enter a quadrant with an insert once more takes a tip change, or a move and a return.
    this.again = Math.max(0, Math.min(tip - move, staging.returnSeconds()));
    this.stretchOf = new int[n];
    Map<Integer, Integer> stretches = new HashMap<>();
    Map<Integer, Integer> inserts = new HashMap<>();
    Map<Integer, Integer> places = new HashMap<>();
    for (int i = 0; i < n; i++) {
      StepFact step = staging.steps().get(members[i]);
      insertOf[i] = number(inserts, staging.tipIndex(step));
      placeOf[i] = number(places, step.areaIndex() * 64 + insertOf[i]);
      stretchOf[i] = number(stretches, staging.quadrant(members[i]) * 64 + insertOf[i]);
      quadrantSteps[staging.quadrant(members[i])] |= 1L << i;
    }
    this.insertSteps = new long[inserts.size()];
    this.placeSteps = new long[places.size()];
    this.placeAspects = new long[3 * places.size()];
    this.stretchSteps = new long[stretches.size()];
    for (int i = 0; i < n; i++) {
      StepFact step = staging.steps().get(members[i]);
      insertSteps[insertOf[i]] |= 1L << i;
      placeSteps[placeOf[i]] |= 1L << i;
      stretchSteps[stretchOf[i]] |= 1L << i;
      placeAspects[3 * placeOf[i] + step.step().aspect().ordinal()] |= 1L << i;
    }
  }

  private static int number(Map<Integer, Integer> numbers, int key) {
    Integer known = numbers.putIfAbsent(key, numbers.size());
    return known == null ? numbers.size() - 1 : known;
  }

  @Override
  public int atLeast(long done, int last) {
    int newInserts = 0;
    boolean returns = false;
    for (int k = 0; k < insertSteps.length; k++) {
      if (k != insertOf[last]) {
        newInserts += (insertSteps[k] & ~done) != 0 ? 1 : 0;
      } else if (looksForReturns && comesBack(k, done)) {
        returns = true;
        newInserts++;
      }
    }
    int entries = 0;
    int turns = 0;
    for (int k = 0; k < placeSteps.length; k++) {
      if ((placeSteps[k] & ~done) == 0) {
        continue;
      }
      int aspects = 0;
      for (int a = 3 * k; a < 3 * k + 3; a++) {
        if ((placeAspects[a] & ~done) != 0) {
          aspects++;
        }
      }
      if (k == placeOf[last]) {
        // Where its insert comes back, the place is entered anew, by whichever aspect is best.
        boolean stays = returns;
        for (int a = 3 * k; a < 3 * k + 3; a++) {
          stays |= (placeAspects[a] & ~done) != 0 && (placeAspects[a] >>> last & 1) != 0;
        }
        turns += stays ? aspects - 1 : aspects;
      } else {
        entries++;
        turns += aspects - 1;
      }
    }
    return tip * newInserts + move * Math.max(0, entries - newInserts) + turn * turns;
  }

  @Override
  public int among(long steps) {
    int inserts = 0;
    for (long some : insertSteps) {
      inserts += (some & steps) != 0 ? 1 : 0;
    }
    int places = 0;
    int aspects = 0;
    for (int k = 0; k < placeSteps.length; k++) {
      if ((placeSteps[k] & steps) != 0) {
        places++;
        for (int a = 3 * k; a < 3 * k + 3; a++) {
          aspects += (placeAspects[a] & steps) != 0 ? 1 : 0;
        }
      }
    }
    return inserts == 0
        ? 0
        : tip * (inserts - 1) + move * (places - inserts) + turn * (aspects - places);
  }

  /**
   * Each quadrant must be entered with each insert that it still wants. Such an entry changes the
   * tip, returns to the quadrant, or is the first into it; every new insert, and one that must be
   * put on again, pays for one entry in {@link #atLeast} already.
   */
  @Override
  public int more(long done, int last) {
    int entries = 0;
    for (int k = 0; k < stretchSteps.length; k++) {
      entries += k != stretchOf[last] && (stretchSteps[k] & ~done) != 0 ? 1 : 0;
    }
    for (int k = 0; k < insertSteps.length; k++) {
      entries -= k != insertOf[last] && (insertSteps[k] & ~done) != 0 ? 1 : 0;
    }
    entries -= looksForReturns && comesBack(insertOf[last], done) ? 1 : 0;
    for (long steps : quadrantSteps) {
      entries -= steps != 0 && (steps & done) == 0 ? 1 : 0;
    }
    return again * Math.max(0, entries);
  }

  /** Whether an insert must be put on again: a step of it waits for one with another insert. */
  private boolean comesBack(int insert, long done) {
    for (long rest = insertSteps[insert] & ~done; rest != 0; rest &= rest - 1) {
      if ((before[Long.numberOfTrailingZeros(rest)] & ~done & ~insertSteps[insert]) != 0) {
        return true;
      }
    }
    return false;
  }
}
