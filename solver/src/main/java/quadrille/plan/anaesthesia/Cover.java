package quadrille.plan.anaesthesia;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedSet;
import java.util.TreeSet;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.practice.Agent;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.Numbing;
import quadrille.plan.work.Target;

/**
 * The injections that numb a set of targets.
 *
 * @param groups at most one a quadrant, in the order of the quadrants; each is given in one go
 * @param uncoverable targets that no injection of the practice's table numbs; the groups cover the
 *     others
 * @param costSeconds what the set costs in whole seconds of chair time, its soft costs counted
 */
public record Cover(List<Group> groups, SortedSet<Target> uncoverable, int costSeconds) {

  /** Nothing is given. */
  public static final Cover NONE = new Cover(List.of(), new TreeSet<>(), 0);

  public Cover {
    groups = List.copyOf(groups);
    uncoverable = Collections.unmodifiableSortedSet(new TreeSet<>(uncoverable));
  }

  /**
   * The injections of one quadrant.
   *
   * @param injections in giving order: longest onset first, then by the practice's table
   */
  public record Group(Quadrant quadrant, List<PlacedInjection> injections) {

    public Group {
      injections = List.copyOf(injections);
    }

    /** Whole seconds to give the group. */
    public int seconds(Numbing numbing) {
      return injections.stream().mapToInt(injection -> injection.seconds(numbing)).sum();
    }

    /** Volume of the group in mL. */
    public double ml() {
      return injections.stream().mapToDouble(PlacedInjection::ml).sum();
    }
  }

  /** All injections, group by group, in giving order. */
  public List<PlacedInjection> injections() {
    List<PlacedInjection> all = new ArrayList<>();
    groups.forEach(group -> all.addAll(group.injections()));
    return all;
  }

  /**
   * The injections that bind a visit to their side: all but those that numb both sides, and the
   * infiltrations that may be given across the midline.
   *
   * @param midlineInfiltration whether the practice lets front teeth be numbed across it
   */
  public List<PlacedInjection> sided(boolean midlineInfiltration) {
    return injections().stream()
        .filter(injection -> !injection.injection().bothSides())
        .filter(injection -> !(midlineInfiltration && injection.acrossMidline()))
        .toList();
  }

  /** The first injection, in giving order, that numbs the target: the one it is counted under. */
  public Optional<PlacedInjection> numbing(Target target) {
    for (Group group : groups) {
      for (PlacedInjection injection : group.injections()) {
        if (injection.numbs(target)) {
          return Optional.of(injection);
        }
      }
    }
    return Optional.empty();
  }

  /** What is injected, one amount an agent, in the order first met. */
  public List<Doses.Amount> amounts() {
    Map<String, Doses.Amount> sums = new LinkedHashMap<>();
    for (PlacedInjection injection : injections()) {
      Agent agent = injection.agent();
      if (agent != null) {
        sums.merge(
            agent.name(),
            new Doses.Amount(agent, injection.ml()),
            (sum, more) -> new Doses.Amount(agent, sum.ml() + more.ml()));
      }
    }
    return List.copyOf(sums.values());
  }

  /** Whole seconds that the agents of its lower blocks cost. */
  public int strongBlockSeconds() {
    double seconds = 0;
    for (PlacedInjection placed : injections()) {
      Agent agent = placed.agent();
      Figure price = agent == null ? null : agent.lowerBlockPriceSeconds();
      seconds += price != null && placed.injection().lowerBlock() ? price.value() : 0;
    }
    return (int) Math.round(seconds);
  }

  /** Volume of all injections in mL. */
  public double ml() {
    return groups.stream().mapToDouble(Group::ml).sum();
  }

  /** Whole seconds to give all injections. */
  public int seconds(Numbing numbing) {
    return groups.stream().mapToInt(group -> group.seconds(numbing)).sum();
  }
}
