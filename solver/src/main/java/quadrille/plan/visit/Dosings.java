package quadrille.plan.visit;

import java.util.AbstractList;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.NoSuchElementException;
import java.util.Objects;
import java.util.SortedMap;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.practice.Agent;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.Technique;
import quadrille.plan.anaesthesia.Cover;
import quadrille.plan.anaesthesia.Needs;

/**
 * What keeps the rules of sides and doses for a set of steps, in the practice's order of agents;
 * where nothing does, what breaks them least. A second agent joins only where the first alone does
 * not numb all of it dependably within the rules of sides. Each is reckoned when it is first asked
 * for, since the first mostly serves.
 */
final class Dosings extends AbstractList<SetEvaluation.Dosing> {
  private final SetEvaluator evaluator;
  private final StepSet members;
  private final Needs needs;
  private final SortedMap<Quadrant, Double> gel;
  private final List<SetEvaluation.Dosing> known = new ArrayList<>();
  private final List<Offer> within = new ArrayList<>();
  private int told;
  private int first;
  private int second = -1;
  private @Nullable Offer least;

  Dosings(SetEvaluator evaluator, StepSet members, Needs needs, SortedMap<Quadrant, Double> gel) {
    this.evaluator = evaluator;
    this.members = members;
    this.needs = needs;
    this.gel = gel;
  }

  /** A cover, by how much it breaks the rules of sides, and oversteps the doses. */
  private record Offer(Cover cover, int broken, int excess) {
    double blockMinutes() {
      return cover.amounts().stream()
          .map(amount -> amount.agent())
          .map(
              agent ->
                  agent.lowerBlockPulpalMinutes() == null
                      ? agent.pulpalMinutes().get(Technique.BLOCK)
                      : agent.lowerBlockPulpalMinutes())
          .filter(Objects::nonNull)
          .mapToDouble(Figure::value)
          .min()
          .orElse(0);
    }

    boolean betterThan(@Nullable Offer other) {
      return other == null
          || broken < other.broken
          || (broken == other.broken && excess < other.excess);
    }
  }

  @Override
  public SetEvaluation.Dosing get(int index) {
    synchronized (evaluator) {
      if (!reaches(index)) {
        throw new IndexOutOfBoundsException(index);
      }
      return known.get(index);
    }
  }

  @Override
  public int size() {
    synchronized (evaluator) {
      while (reaches(known.size())) {}
      return known.size();
    }
  }

  private boolean reaches(int index) {
    while (known.size() <= index && next()) {}
    return index < known.size();
  }

  @Override
  public Iterator<SetEvaluation.Dosing> iterator() {
    return new Iterator<>() {
      private int at;

      @Override
      public boolean hasNext() {
        synchronized (evaluator) {
          return reaches(at);
        }
      }

      @Override
      public SetEvaluation.Dosing next() {
        if (!hasNext()) {
          throw new NoSuchElementException();
        }
        return get(at++);
      }
    };
  }

  @Override
  public int indexOf(@Nullable Object dosing) {
    int index = 0;
    for (SetEvaluation.Dosing one : this) {
      if (one.equals(dosing)) {
        return index;
      }
      index++;
    }
    return -1;
  }

  /**
   * Goes on to the next: as the practice prefers, but before each what suits lower blocks better
   * and lasts as long.
   */
  private boolean next() {
    while (told == within.size() && more()) {}
    if (told == within.size()) {
      Offer nothing = within.isEmpty() && known.isEmpty() ? least : null;
      return nothing != null && known.add(dosing(nothing));
    }
    Offer offer = within.get(told++);
    int price = offer.cover().strongBlockSeconds();
    if (price > 0) {
      while (more()) {}
      within.stream()
          .filter(other -> other.cover().strongBlockSeconds() < price)
          .filter(other -> other.blockMinutes() >= offer.blockMinutes())
          .forEach(this::tell);
    }
    tell(offer);
    return true;
  }

  private void tell(Offer offer) {
    if (known.stream().noneMatch(one -> one.cover().equals(offer.cover()))) {
      known.add(dosing(offer));
    }
  }

  private SetEvaluation.Dosing dosing(Offer offer) {
    Cover cover = offer.cover();
    return evaluator.dosing(members, cover, cover.uncoverable().size(), gel, offer.excess());
  }

  /** Looks at what one more agent, or one more pair of them, has to offer. */
  private boolean more() {
    List<Agent> agents = evaluator.agents();
    if (first == agents.size()) {
      return false;
    }
    Agent agent = agents.get(first);
    if (second < 0) {
      second = take(evaluator.covers(needs, agent, null)) ? agents.size() : 0;
    } else {
      if (second != first) {
        take(evaluator.covers(needs, agent, agents.get(second)));
      }
      second++;
    }
    if (second == agents.size()) {
      second = -1;
      first++;
    }
    return true;
  }

  /** Takes some covers; answers whether they keep the rules of sides and numb all. */
  private boolean take(List<Cover> some) {
    boolean serve = false;
    for (Cover cover : some) {
      Offer offer = new Offer(cover, evaluator.broken(cover), evaluator.excess(cover, gel));
      serve = offer.broken() == 0;
      if (serve && offer.excess() == 0) {
        within.add(offer);
      } else if (within.isEmpty() && offer.betterThan(least)) {
        least = offer;
      }
    }
    return serve;
  }
}
