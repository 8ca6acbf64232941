package quadrille.plan.bound;

import java.util.Arrays;
import quadrille.plan.visit.StagingCase;
import quadrille.plan.visit.StepFact;
import quadrille.plan.visit.StepSet;

/**
 * The dynamic programme of Held and Karp ("A dynamic programming approach to sequencing problems",
 * 1962) over sets of inserts: how much tip changes must cost in a visit, by the set of inserts that
 * it uses, whatever the order of its steps.
 *
 * <p>The cost from one insert to another is that of the cheapest changeover between any two steps
 * of the case that use them, less a {@link #move}, and no more than a way round by other inserts.
 * The steps of a visit change inserts along a walk that meets each of its inserts; the cheapest
 * such walk costs no more.
 */
final class InsertWalks {
  /** No more inserts a case are gone through. */
  static final int MOST = 10;

  private static final double FAR = 1e9;

  private final int[] numberOf;
  private final int inserts;
  private final double move;
  private final double turn;
  private final double[] cheapest;

  InsertWalks(StagingCase staging) {
    int tip = staging.practice().minutes().tipChangeSeconds().asInt();
    this.move = Math.min(tip, staging.practice().minutes().repositionAreaSeconds().asInt());
    this.turn = Math.min(move, staging.practice().minutes().repositionAspectSeconds().asInt());
    this.numberOf = new int[StepSet.CAPACITY];
    Arrays.fill(numberOf, -1);
    int found = 0;
    for (StepFact step : staging.steps()) {
      int insert = staging.tipIndex(step);
      if (numberOf[insert] < 0) {
        numberOf[insert] = found++;
      }
    }
    this.inserts = found;
    this.cheapest = found > MOST ? new double[0] : walks(ways(staging));
  }

  private double[][] ways(StagingCase staging) {
    double[][] ways = new double[inserts][inserts];
    for (double[] row : ways) {
      Arrays.fill(row, FAR);
    }
    for (StepFact from : staging.steps()) {
      for (StepFact to : staging.steps()) {
        int one = number(staging, from);
        int other = number(staging, to);
        if (one != other) {
          double way = staging.change(from.index(), to.index()) - move;
          ways[one][other] = Math.min(ways[one][other], way);
        }
      }
    }
    for (int by = 0; by < inserts; by++) {
      for (int from = 0; from < inserts; from++) {
        for (int to = 0; to < inserts; to++) {
          if (from != to) {
            ways[from][to] = Math.min(ways[from][to], ways[from][by] + ways[by][to]);
          }
        }
      }
    }
    return ways;
  }

  /** By set of inserts, the cheapest walk that meets all of them and ends anywhere. */
  private double[] walks(double[][] ways) {
    int all = 1 << inserts;
    double[][] endingAt = new double[all][inserts];
    double[] walks = new double[all];
    for (int set = 1; set < all; set++) {
      Arrays.fill(endingAt[set], FAR);
      walks[set] = FAR;
      for (int last = 0; last < inserts; last++) {
        if ((set >>> last & 1) != 0) {
          int before = set & ~(1 << last);
          endingAt[set][last] = before == 0 ? 0 : FAR;
          for (int from = 0; from < inserts; from++) {
            if ((before >>> from & 1) != 0) {
              endingAt[set][last] =
                  Math.min(endingAt[set][last], endingAt[before][from] + ways[from][last]);
            }
          }
          walks[set] = Math.min(walks[set], endingAt[set][last]);
        }
      }
    }
    return walks;
  }

  /** A step's insert, as a number from 0. */
  int number(StagingCase staging, StepFact step) {
    return numberOf[staging.tipIndex(step)];
  }

  /** How many inserts there are. */
  int inserts() {
    return inserts;
  }

  /** Seconds that entering a place takes at the least, where it is not the first of a visit. */
  double move() {
    return move;
  }

  /** Seconds that turning to another aspect takes at the least; no more than a move. */
  double turn() {
    return turn;
  }

  /**
   * Seconds beyond a move for each entry; 0 for one insert or none.
   *
   * @param set inserts, as bits by their numbers
   */
  double cheapest(int set) {
    return cheapest[set];
  }
}
