package quadrille.staging;

import java.util.HashSet;
import java.util.Set;
import java.util.SortedSet;
import java.util.TreeSet;
import quadrille.anaesthesia.Cover;
import quadrille.anaesthesia.InjectionCover;
import quadrille.practice.Minutes;
import quadrille.work.Step;
import quadrille.work.Target;

/**
 * A bound from argument: no course of the case's number of visits costs less.
 *
 * <p>Every course sets up and closes each visit and does every step. Over all visits, it changes
 * tips at least as often as there are inserts beyond one a visit, and moves at least as often as
 * there are areas beyond one a visit. All its injections together numb all that must be numb, so
 * they cost at least what the cheapest such set does.
 */
final class LowerBound {

  private static final double CARTRIDGE_ML = 1.8;

  private LowerBound() {}

  static long of(StagingCase staging) {
    long bound = (long) staging.visits() * (staging.setUp() + staging.close());
    Set<String> inserts = new HashSet<>();
    SortedSet<Target> needs = new TreeSet<>();
    for (StepFact fact : staging.steps()) {
      Step step = fact.step();
      bound += step.seconds() + (step.gel() ? staging.gelSeconds() : 0);
      inserts.add(step.insert().name());
      needs.addAll(step.needs());
    }
    Minutes minutes = staging.practice().minutes();
    bound +=
        (long) Math.max(0, inserts.size() - staging.visits()) * minutes.tipChangeSeconds().asInt();
    bound +=
        (long) Math.max(0, staging.areas().size() - staging.visits())
            * minutes.repositionAreaSeconds().asInt();
    Cover cover = new InjectionCover(staging.practice(), staging.patient()).cheapest(needs);
    // The cover weighs cartridges as if they held 1.8 mL; larger ones would cost less a millilitre.
    double largest =
        staging.practice().agents().values().stream()
            .mapToDouble(agent -> agent.cartridgeMl().value())
            .max()
            .orElse(CARTRIDGE_ML);
    double factor = Math.min(1, CARTRIDGE_ML / largest);
    // Each injection's cost was rounded to whole seconds.
    bound +=
        (long) Math.floor(factor * Math.max(0, cover.costSeconds() - cover.injections().size()));
    return bound;
  }
}
