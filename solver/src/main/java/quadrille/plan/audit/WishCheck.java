package quadrille.plan.audit;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.Predicate;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Wish;
import quadrille.facts.chart.Wish.Region;
import quadrille.facts.practice.Power;
import quadrille.plan.course.Course;
import quadrille.plan.course.WishOutcome;
import quadrille.plan.course.WishOutcome.State;

/** Wishes that must be kept are, and the plan says truly what became of the others. */
final class WishCheck {
  private final List<VisitParts> visits;
  private final Facts facts;

  private WishCheck(List<VisitParts> visits, Facts facts) {
    this.visits = visits;
    this.facts = facts;
  }

  /**
   * @param asked the chart's wishes
   * @param carriesOn whether the course carries on another, so that wishes may have been dropped
   */
  static void check(
      Course course,
      List<VisitParts> visits,
      List<Wish> asked,
      boolean carriesOn,
      Facts facts,
      Findings findings) {
    WishCheck check = new WishCheck(visits, facts);
    List<Wish> known = course.wishes().stream().map(WishOutcome::wish).toList();
    for (Wish wish : asked) {
      boolean dropped = carriesOn && wish.ask() instanceof Wish.InVisit;
      if (!known.contains(wish) && !dropped) {
        findings.course(
            Rule.WISH, "The plan does not know a wish: " + findings.say().wish(wish) + ".");
      }
    }
    for (WishOutcome outcome : course.wishes()) {
      String what = findings.say().wish(outcome.wish());
      int breaches = check.breaches(outcome);
      boolean asStated =
          switch (outcome.state()) {
            case KEPT -> breaches == 0;
            case NOT_KEPT -> breaches > 0;
            case NOTHING_THERE -> check.nothingThere(outcome.wish());
            case OTHER_NUMBER -> !outcome.wish().holdsAt(visits.size());
            case DROPPED -> carriesOn;
          };
      boolean open = outcome.state() == State.KEPT || outcome.state() == State.NOT_KEPT;
      if (outcome.wish().must() && breaches > 0 && open) {
        findings.course(Rule.WISH, "A wish that must be kept is not: " + what + ".");
      } else if (!asStated) {
        findings.course(
            Rule.REPORT,
            "The plan states of the wish ("
                + what
                + ") that it is "
                + outcome.state().name().toLowerCase(Locale.ROOT).replace('_', ' ')
                + ", which is not so.");
      }
    }
  }

  /** What the course costs since it does not keep wishes; seconds. */
  static long cost(Course course, List<VisitParts> visits, Facts facts) {
    WishCheck check = new WishCheck(visits, facts);
    long each = Math.round(facts.practice().weights().wish().value());
    return course.wishes().stream()
        .filter(outcome -> !outcome.wish().must() && outcome.state() == State.NOT_KEPT)
        .mapToLong(outcome -> each * check.breaches(outcome))
        .sum();
  }

  private boolean nothingThere(Wish wish) {
    if (wish.ask() instanceof Wish.NotInsert not) {
      return !facts.practice().inserts().containsKey(not.insert()) || visits.isEmpty();
    }
    return visits.isEmpty()
        || (!wish.ask().regions().isEmpty()
            && visits.stream().noneMatch(visit -> works(visit, area -> isIn(wish, area))));
  }

  /** How often the course does not keep it. */
  private int breaches(WishOutcome outcome) {
    Wish wish = outcome.wish();
    List<Integer> there = new ArrayList<>();
    List<Integer> elsewhere = new ArrayList<>();
    int meetings = 0;
    boolean insert = false;
    boolean injected = false;
    for (VisitParts visit : visits) {
      if (works(visit, area -> isIn(wish, area))) {
        there.add(visit.place());
      }
      if (works(visit, area -> !isIn(wish, area))) {
        elsewhere.add(visit.place());
      }
      long places =
          wish.ask().regions().stream()
              .filter(region -> works(visit, area -> isIn(region, area)))
              .count();
      meetings += places > 1 ? 1 : 0;
      for (Done done : visit.done()) {
        insert |=
            wish.ask() instanceof Wish.NotInsert not && done.entry().insert().equals(not.insert());
        injected |=
            !done.needs().isEmpty() && visit.gel(done) == null && isIn(wish, done.entry().area());
      }
    }
    boolean kept;
    if (wish.ask() instanceof Wish.InVisit in) {
      kept = there.stream().allMatch(place -> place == in.visit());
    } else if (wish.ask() instanceof Wish.Together) {
      kept = there.size() < 2;
    } else if (wish.ask() instanceof Wish.Apart) {
      return meetings;
    } else if (wish.ask() instanceof Wish.First) {
      kept =
          there.isEmpty() || elsewhere.isEmpty() || there.get(there.size() - 1) <= elsewhere.get(0);
    } else if (wish.ask() instanceof Wish.NoInjection) {
      kept = !injected;
    } else if (wish.ask() instanceof Wish.NotInsert) {
      kept = !insert;
    } else if (wish.ask() instanceof Wish.ByHand) {
      kept =
          visits.stream()
              .flatMap(visit -> visit.done().stream())
              .allMatch(done -> done.entry().power() == Power.NONE);
    } else {
      // Whether visits begin numb is judged where they begin, if it is said that they do.
      kept = outcome.state() == State.KEPT;
    }
    return kept ? 0 : 1;
  }

  private static boolean works(VisitParts visit, Predicate<AreaRef> where) {
    return visit.done().stream().anyMatch(done -> where.test(done.entry().area()));
  }

  private boolean isIn(Wish wish, AreaRef area) {
    return wish.ask().regions().stream().anyMatch(region -> isIn(region, area));
  }

  private boolean isIn(Region region, AreaRef area) {
    return facts.chart().worked().stream()
        .anyMatch(tooth -> region.holds(tooth.tooth()) && area.holds(tooth.tooth()));
  }
}
