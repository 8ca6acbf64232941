package quadrille.staging;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/**
 * Finds a good order for the steps of one visit, by a dynamic programme over the sets of steps done
 * so far that keeps only the most promising partial visits of each length. Where nothing had to be
 * dropped, no order ends sooner.
 *
 * <p>A partial visit is dominated by another over the same steps, with the same last step and the
 * same groups given, that ends no later, will be numb no later, and stays numb no shorter.
 */
final class Sequencer {
  private final StagingCase staging;
  private final int width;
  private final Map<StepSet, Sequence> known = new HashMap<>();

  /**
   * An order of steps.
   *
   * @param exact whether nothing was dropped on the way, so that no order ends sooner
   */
  record Sequence(int[] order, boolean exact) {}

  /**
   * @param width how many partial visits of each length are kept, 1 or more
   */
  Sequencer(StagingCase staging, int width) {
    this.staging = staging;
    this.width = width;
  }

  /** A good order for the steps; remembered. */
  Sequence sequence(StepSet steps) {
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
    SetReckoning set = staging.reckoner().set(steps);
    for (SetReckoning.Dosing dosing : set.dosings()) {
      Sequence sequence = new Search(members, dosing, true).run();
      if (sequence != null) {
        return sequence;
      }
    }
    // Numbness lasts for no order that was met: the shortest visit then, and the rule book will say
    // so.
    Sequence shortest = new Search(members, set.dosings().get(0), false).run();
    return new Sequence(Objects.requireNonNull(shortest).order(), false);
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
    @Nullable Label nextInState;

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

  private record State(long done, int last, int given) {}

  private final class Search {
    private final int[] members;
    private final SetReckoning.Dosing dosing;
    private final boolean lasting;
    private final int groups;
    private final long[] mustBeDone;
    private final int[] duration;
    private final int[] insertOf;
    private final int[] areaOf;
    private final long[] insertSteps;
    private final long[] areaSteps;
    private final int[] latestReady;
    private final int tip;
    private final int move;
    private boolean dropped;

    Search(int[] members, SetReckoning.Dosing dosing, boolean lasting) {
      this.members = members;
      this.dosing = dosing;
      this.lasting = lasting;
      this.groups = dosing.groupSeconds().length;
      int n = members.length;
      this.mustBeDone = new long[n];
      this.duration = new int[n];
      this.insertOf = new int[n];
      this.areaOf = new int[n];
      this.insertSteps = new long[64];
      this.areaSteps = new long[64];
      this.latestReady = new int[groups];
      this.tip = staging.practice().minutes().tipChangeSeconds().asInt();
      this.move = staging.practice().minutes().repositionAreaSeconds().asInt();
      for (int i = 0; i < n; i++) {
        StepFact step = staging.steps().get(members[i]);
        duration[i] = step.step().seconds() + (step.step().gel() ? staging.gelSeconds() : 0);
        insertOf[i] = staging.insertIndex(step);
        areaOf[i] = step.areaIndex();
        insertSteps[insertOf[i]] |= 1L << i;
        areaSteps[areaOf[i]] |= 1L << i;
        for (int j = 0; j < n; j++) {
          if (Reckoner.mustPrecede(staging.steps().get(members[j]), step)) {
            mustBeDone[i] |= 1L << j;
          }
        }
        int[] needs = dosing.needs()[members[i]];
        if (needs != null) {
          for (int k = 0; k < needs.length; k += 3) {
            latestReady[needs[k]] = Math.max(latestReady[needs[k]], needs[k + 1]);
          }
        }
      }
    }

    @Nullable Sequence run() {
      int n = members.length;
      int rest = Arrays.stream(duration).sum() + Arrays.stream(dosing.groupSeconds()).sum();
      List<Label> layer = new ArrayList<>();
      layer.add(new Label(null, -1, 0, 0, staging.setUp(), new int[groups], 0));
      int[] noGroup = {};
      for (int depth = 0; depth < n; depth++) {
        Map<State, Label> states = new HashMap<>();
        List<Label> next = new ArrayList<>();
        for (Label label : layer) {
          for (int j = 0; j < n; j++) {
            if ((label.done >>> j & 1) == 0 && (mustBeDone[j] & ~label.done) == 0) {
              extend(label, j, noGroup, states, next);
              extendGiving(label, j, states, next);
            }
          }
        }
        layer = kept(states, next);
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
      assert best.now >= rest;
      int[] order = new int[n];
      Label at = best;
      for (int i = n - 1; i >= 0; i--) {
        order[i] = members[at.last];
        at = Objects.requireNonNull(at.before);
      }
      return new Sequence(order, !dropped);
    }

    /** Tries giving one group, or two in either order, before step j. */
    private void extendGiving(Label label, int j, Map<State, Label> states, List<Label> next) {
      for (int g = 0; g < groups; g++) {
        if ((label.given >>> g & 1) != 0) {
          continue;
        }
        extend(label, j, new int[] {g}, states, next);
        for (int h = 0; h < groups; h++) {
          if (h != g && (label.given >>> h & 1) == 0) {
            extend(label, j, new int[] {g, h}, states, next);
          }
        }
      }
    }

    private void extend(
        Label label, int j, int[] give, Map<State, Label> states, List<Label> next) {
      int given = label.given;
      for (int g : give) {
        given |= 1 << g;
      }
      int[] needs = dosing.needs()[members[j]];
      if (needs != null) {
        for (int k = 0; k < needs.length; k += 3) {
          if ((given >>> needs[k] & 1) == 0) {
            return;
          }
        }
      }
      int now = label.now;
      int[] start = label.start;
      if (give.length > 0) {
        start = start.clone();
        for (int g : give) {
          start[g] = now;
          now += dosing.groupSeconds()[g];
        }
      }
      if (label.last >= 0) {
        now += staging.change(members[label.last], members[j]);
      }
      if (needs != null) {
        int from = now;
        for (int k = 0; k < needs.length; k += 3) {
          from = Math.max(from, start[needs[k]] + needs[k + 1]);
        }
        now = from;
      }
      now += duration[j];
      if (needs != null && lasting) {
        for (int k = 0; k < needs.length; k += 3) {
          if (now - start[needs[k]] > needs[k + 2]) {
            return;
          }
        }
      }
      long done = label.done | 1L << j;
      offer(
          new Label(label, j, done, given, now, start, now + estimate(done, j, given)),
          states,
          next);
    }

    /**
     * What must still come at the least: the rest of the work, the tips not yet on, the areas not
     * yet met.
     */
    private int estimate(long done, int last, int given) {
      int rest = 0;
      for (int i = 0; i < members.length; i++) {
        if ((done >>> i & 1) == 0) {
          rest += duration[i];
        }
      }
      for (int g = 0; g < groups; g++) {
        if ((given >>> g & 1) == 0) {
          rest += dosing.groupSeconds()[g];
        }
      }
      for (int k = 0; k < 64; k++) {
        if (k != insertOf[last] && (insertSteps[k] & ~done) != 0) {
          rest += tip;
        }
        if (k != areaOf[last] && (areaSteps[k] & ~done) != 0) {
          rest += move;
        }
      }
      return rest;
    }

    private void offer(Label label, Map<State, Label> states, List<Label> next) {
      State state = new State(label.done, label.last, label.given);
      Label head = states.get(state);
      for (Label other = head; other != null; other = other.nextInState) {
        if (dominates(other, label)) {
          return;
        }
      }
      // Those that the new one dominates fall out of the chain; kept() reads the chains only.
      Label chain = null;
      for (Label other = head; other != null; ) {
        Label following = other.nextInState;
        if (!dominates(label, other)) {
          other.nextInState = chain;
          chain = other;
        }
        other = following;
      }
      if (head == null) {
        next.add(label);
      }
      label.nextInState = chain;
      states.put(state, label);
    }

    private boolean dominates(Label better, Label worse) {
      if (better.now > worse.now) {
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
        int sooner = settled ? worse.now - better.now : 0;
        for (int g = 0; g < groups; g++) {
          if ((better.given >>> g & 1) != 0 && better.start[g] + sooner < worse.start[g]) {
            return false;
          }
        }
      }
      return true;
    }

    private List<Label> kept(Map<State, Label> states, List<Label> firsts) {
      List<Label> all = new ArrayList<>();
      for (Label first : firsts) {
        for (Label label = states.get(new State(first.done, first.last, first.given));
            label != null;
            label = label.nextInState) {
          all.add(label);
        }
      }
      if (all.size() > width) {
        dropped = true;
        all.sort(Comparator.comparingInt(label -> label.estimate));
        return new ArrayList<>(all.subList(0, width));
      }
      return all;
    }
  }
}
