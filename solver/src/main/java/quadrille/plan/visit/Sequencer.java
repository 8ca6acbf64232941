package quadrille.plan.visit;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/**
 * Beam search (Lowerre, "The HARPY speech recognition system", 1976) in the dynamic programme of
 * Held and Karp ("A dynamic programming approach to sequencing problems", 1962) over the sets of
 * steps done so far: finds a good order for the steps of one visit. Only the most promising partial
 * visits of each length are kept. Where nothing had to be dropped, no order ends sooner.
 *
 * <p>A partial visit is dominated by another over the same steps, with the same last step and the
 * same groups given, that ends no later, will be numb no later, and stays numb no shorter.
 */
public final class Sequencer {
  private final VisitEvaluator evaluator;
  private final StagingCase staging;
  private final int width;
  private final Map<StepSet, Sequence> known = new HashMap<>();

  /**
   * An order of steps.
   *
   * @param exact whether nothing was dropped on the way, so that no order ends sooner
   */
  public record Sequence(int[] order, boolean exact) {}

  /**
   * @param width how many partial visits of each length are kept, 1 or more
   */
  public Sequencer(VisitEvaluator evaluator, int width) {
    this.evaluator = evaluator;
    this.staging = evaluator.staging();
    this.width = width;
  }

  /** A good order for the steps; remembered. */
  public Sequence sequence(StepSet steps) {
    Sequence sequence = known.get(steps);
    if (sequence == null) {
      sequence = search(steps);
      known.put(steps, sequence);
    }
    return sequence;
  }

  private Sequence search(StepSet steps) {
    int[] members = steps.members();
    if (members.length == 0) {
      return new Sequence(members, true);
    }
    if (members.length > 63) {
      return new Sequence(members, false);
    }
    SetEvaluation set = evaluator.set(steps);
    if (set.hopeless(staging)) {
      return new Sequence(
          Objects.requireNonNull(new Search(members, set.dosings().get(0), false, 1).run()).order(),
          false);
    }
    for (SetEvaluation.Dosing dosing : set.dosings()) {
      Sequence sequence = new Search(members, dosing, true, width).run();
      if (sequence != null) {
        return sequence.exact()
            ? sequence
            : new Sequence(Shifting.improve(evaluator, sequence.order()), false);
      }
    }
    // Numbness lasts for no order that was met: the shortest visit then, and the rule book will say
    // so.
    Sequence shortest = new Search(members, set.dosings().get(0), false, width).run();
    return new Sequence(
        Shifting.improve(evaluator, Objects.requireNonNull(shortest).order()), false);
  }

  /** A partial visit. */
  private static final class Label {
    final @Nullable Label before;
    final int last;
    final long done;
    final int given;
    final int now;
    final int[] start;
    final int estimate;
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
        int estimate) {
      this.before = before;
      this.last = last;
      this.done = done;
      this.given = given;
      this.now = now;
      this.start = start;
      this.estimate = estimate;
    }
  }

  private final class Search {
    private static final int BUCKETS = 1 << 12;

    private final int[] members;
    private final SetEvaluation.Dosing dosing;
    private final boolean lasting;
    private final int width;
    private final int groups;
    private final long[] mustBeDone;
    private final int[] duration;
    private final int[][] change;
    private final int[][] handicap;
    private final int[][] needs;
    private final int[] waitsFor;
    private final int[] insertOf;
    private final int[] placeOf;
    private final long[] insertSteps;
    private final long[] placeSteps;
    private final long[] placeAspects;
    private final int[] latestReady;
    private final int[] soonestReady;
    private final int[][] gifts;
    private final int tip;
    private final int move;
    private final int turn;
    private final @Nullable Label[] buckets = new Label[BUCKETS];
    private List<Label> next = new ArrayList<>();
    private boolean dropped;

    Search(int[] members, SetEvaluation.Dosing dosing, boolean lasting, int width) {
      this.width = width;
      this.members = members;
      this.dosing = dosing;
      this.lasting = lasting;
      this.groups = dosing.groupSeconds().length;
      int n = members.length;
      this.mustBeDone = new long[n];
      this.duration = new int[n];
      this.change = new int[n][n];
      this.handicap = new int[n][n];
      this.needs = new int[n][];
      this.waitsFor = new int[n];
      this.insertOf = new int[n];
      this.placeOf = new int[n];
      this.latestReady = new int[groups];
      this.soonestReady = new int[groups];
      Arrays.fill(soonestReady, Integer.MAX_VALUE);
      this.tip = staging.practice().minutes().tipChangeSeconds().asInt();
      this.move = Math.min(tip, staging.practice().minutes().repositionAreaSeconds().asInt());
      this.turn = staging.practice().minutes().repositionAspectSeconds().asInt();
      Map<Integer, Integer> inserts = new HashMap<>();
      Map<Integer, Integer> places = new HashMap<>();
      for (int i = 0; i < n; i++) {
        StepFact step = staging.steps().get(members[i]);
        duration[i] = step.step().seconds() + (step.step().gel() ? staging.gelSeconds() : 0);
        insertOf[i] = number(inserts, staging.insertIndex(step));
        placeOf[i] = number(places, step.areaIndex() * 64 + insertOf[i]);
        for (int j = 0; j < n; j++) {
          change[i][j] = staging.change(members[i], members[j]);
          if (staging.mustPrecede(staging.steps().get(members[j]), step)) {
            mustBeDone[i] |= 1L << j;
          }
        }
        int[] triples = dosing.needs()[members[i]];
        needs[i] = triples == null ? new int[0] : triples;
        for (int k = 0; k < needs[i].length; k += 3) {
          int g = needs[i][k];
          waitsFor[i] |= 1 << g;
          latestReady[g] = Math.max(latestReady[g], needs[i][k + 1]);
          soonestReady[g] = Math.min(soonestReady[g], needs[i][k + 1]);
        }
      }
      this.insertSteps = new long[inserts.size()];
      this.placeSteps = new long[places.size()];
      this.placeAspects = new long[3 * places.size()];
      for (int i = 0; i < n; i++) {
        StepFact step = staging.steps().get(members[i]);
        insertSteps[insertOf[i]] |= 1L << i;
        placeSteps[placeOf[i]] |= 1L << i;
        placeAspects[3 * placeOf[i] + step.step().aspect().ordinal()] |= 1L << i;
      }
      for (int a = 0; a < n; a++) {
        for (int b = 0; b < n; b++) {
          for (int x = 0; x < n; x++) {
            handicap[a][b] = Math.max(handicap[a][b], change[a][x] - change[b][x]);
          }
        }
      }
      this.gifts = gifts();
    }

    private static int number(Map<Integer, Integer> numbers, int key) {
      Integer known = numbers.putIfAbsent(key, numbers.size());
      return known == null ? numbers.size() - 1 : known;
    }

    /** The groups that can be given in one go before a step: none, one, or two in either order. */
    private int[][] gifts() {
      List<int[]> all = new ArrayList<>();
      all.add(new int[0]);
      for (int g = 0; g < groups; g++) {
        all.add(new int[] {g});
        for (int h = 0; h < groups; h++) {
          if (h != g) {
            all.add(new int[] {g, h});
          }
        }
      }
      return all.toArray(new int[0][]);
    }

    @Nullable Sequence run() {
      int n = members.length;
      List<Label> layer = new ArrayList<>();
      int rest = Arrays.stream(duration).sum() + Arrays.stream(dosing.groupSeconds()).sum();
      layer.add(
          new Label(null, -1, 0, 0, staging.setUp(), new int[groups], staging.setUp() + rest));
      for (int depth = 0; depth < n; depth++) {
        for (Label label : layer) {
          for (int j = 0; j < n; j++) {
            if ((label.done >>> j & 1) == 0 && (mustBeDone[j] & ~label.done) == 0) {
              for (int[] gift : gifts) {
                extend(label, j, gift);
              }
            }
          }
        }
        layer = kept();
        if (layer.isEmpty()) {
          return null;
        }
      }
      Label best = layer.get(0);
      for (Label label : layer) {
        if (label.now < best.now) {
          best = label;
        }
      }
      int[] order = new int[n];
      Label at = best;
      for (int i = n - 1; i >= 0; i--) {
        order[i] = members[at.last];
        at = Objects.requireNonNull(at.before);
      }
      return new Sequence(order, !dropped);
    }

    private void extend(Label label, int j, int[] gift) {
      int given = label.given;
      for (int g : gift) {
        if ((given >>> g & 1) != 0) {
          return;
        }
        given |= 1 << g;
      }
      if ((waitsFor[j] & ~given) != 0) {
        return;
      }
      int now = label.now;
      int[] start = label.start;
      if (gift.length > 0) {
        start = start.clone();
        for (int g : gift) {
          start[g] = now;
          now += dosing.groupSeconds()[g];
        }
      }
      if (label.last >= 0) {
        now += change[label.last][j];
      }
      int[] triples = needs[j];
      int from = now;
      for (int k = 0; k < triples.length; k += 3) {
        from = Math.max(from, start[triples[k]] + triples[k + 1]);
      }
      now = from + duration[j];
      if (lasting) {
        for (int k = 0; k < triples.length; k += 3) {
          if (now - start[triples[k]] > triples[k + 2]) {
            return;
          }
        }
      }
      long done = label.done | 1L << j;
      offer(new Label(label, j, done, given, now, start, estimate(done, j, given, now, start)));
    }

    /**
     * When the visit's work can end at the soonest: after the rest of the work, the groups not yet
     * given and the changeovers to come; and not before each group has taken and the steps that
     * wait for it are done.
     */
    private int estimate(long done, int last, int given, int now, int[] start) {
      int end = now + changesToCome(done, last);
      int[] waiting = new int[groups];
      for (int i = 0; i < duration.length; i++) {
        if ((done >>> i & 1) == 0) {
          end += duration[i];
          for (int k = 0; k < needs[i].length; k += 3) {
            waiting[needs[i][k]] += duration[i];
          }
        }
      }
      for (int g = 0; g < groups; g++) {
        if ((given >>> g & 1) == 0) {
          end += dosing.groupSeconds()[g];
        }
      }
      for (int g = 0; g < groups; g++) {
        if (waiting[g] > 0) {
          int from = (given >>> g & 1) == 0 ? now : start[g];
          end = Math.max(end, from + soonestReady[g] + waiting[g]);
        }
      }
      return end;
    }

    /**
     * Changeovers that must still come. Every place (an area with an insert) not yet entered must
     * be entered: with a tip change where its insert is new or must come back, else with at least a
     * move; and its aspects are met one after another. Where only one partial visit is kept, what
     * must come back is not looked for: it takes time, and that search is as good without.
     */
    private int changesToCome(long done, int last) {
      int newInserts = 0;
      for (int k = 0; k < insertSteps.length; k++) {
        if (k != insertOf[last] ? (insertSteps[k] & ~done) != 0 : width > 1 && comesBack(k, done)) {
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
          boolean stays = false;
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

    /** Whether an insert must be put on again: a step of it waits for one with another insert. */
    private boolean comesBack(int insert, long done) {
      for (long rest = insertSteps[insert] & ~done; rest != 0; rest &= rest - 1) {
        if ((mustBeDone[Long.numberOfTrailingZeros(rest)] & ~done & ~insertSteps[insert]) != 0) {
          return true;
        }
      }
      return false;
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
      if (sooner < 0) {
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
      if (lasting) {
        int slack = settled ? sooner : 0;
        for (int g = 0; g < groups; g++) {
          if ((better.given >>> g & 1) != 0 && better.start[g] + slack < worse.start[g]) {
            return false;
          }
        }
      }
      return true;
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
        dropped = true;
        all.sort(Comparator.comparingInt(label -> label.estimate));
        return new ArrayList<>(all.subList(0, width));
      }
      return all;
    }
  }
}
