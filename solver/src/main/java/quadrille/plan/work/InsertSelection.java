package quadrille.plan.work;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import quadrille.facts.chart.Area;
import quadrille.facts.chart.Aspect;
import quadrille.facts.chart.Deposit;
import quadrille.facts.chart.Patient;
import quadrille.facts.chart.ToothChart;
import quadrille.facts.chart.Wish;
import quadrille.facts.practice.Insert;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.Power;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.SelectionRule;
import quadrille.facts.practice.SelectionRule.Scope;
import quadrille.facts.practice.SelectionRule.When;
import quadrille.plan.work.Unworkable.Obstacle;

/**
 * Answers why an insert was chosen. The practice's selection table is read row by row. A row of
 * scope {@code tooth} takes the teeth that meet its condition; a row of scope {@code area} is read
 * against all teeth of the sweep that no row has taken yet (deepest site, worst deposit and
 * furcation, any feature) and takes them all. Of the row's inserts the first is used that is owned
 * and allowed for the pass and at the row's power.
 *
 * <p>Two things hold whatever the table says: an implant is touched by a sleeved insert at low
 * power only, or by hand instruments made for implants, and a natural tooth never by these.
 */
public final class InsertSelection {

  private final Practice practice;
  private final boolean byHand;
  private final Set<String> notWished;

  /** Without wishes. */
  public InsertSelection(Practice practice) {
    this(practice, false, Set.of());
  }

  /**
   * @param byHand whether the rows for work by hand are read, or the others
   * @param patient whose wishes may leave out inserts
   */
  InsertSelection(Practice practice, boolean byHand, Patient patient) {
    this(practice, byHand, notWished(patient));
  }

  /**
   * @param byHand whether the rows for work by hand are read, or the others
   */
  public InsertSelection(Practice practice, boolean byHand) {
    this(practice, byHand, Set.of());
  }

  private InsertSelection(Practice practice, boolean byHand, Set<String> notWished) {
    this.practice = practice;
    this.byHand = byHand;
    this.notWished = notWished;
  }

  private static Set<String> notWished(Patient patient) {
    Set<String> names = new TreeSet<>();
    for (Wish wish : patient.wishes()) {
      if (wish.must() && wish.ask() instanceof Wish.NotInsert not) {
        names.add(not.insert());
      }
    }
    return names;
  }

  /**
   * A row's choice.
   *
   * @param teeth the teeth it was made for, in the order given
   */
  public record Choice(SelectionRule rule, Insert insert, List<ToothChart> teeth) {

    public Choice {
      teeth = List.copyOf(teeth);
    }
  }

  /**
   * What became of a sweep; each tooth is in exactly one choice or one unworkable.
   *
   * @param choices in table order
   * @param unworkable teeth that no row takes, or whose row names no insert that may be used
   */
  public record Selection(List<Choice> choices, List<Unworkable> unworkable) {

    public Selection {
      choices = List.copyOf(choices);
      unworkable = List.copyOf(unworkable);
    }
  }

  /**
   * Chooses for one sweep.
   *
   * @param teeth teeth of the area that are due the pass; not empty
   */
  public Selection choose(Area area, Pass pass, StepAspect aspect, List<ToothChart> teeth) {
    List<Choice> choices = new ArrayList<>();
    List<Unworkable> unworkable = new ArrayList<>();
    List<ToothChart> left = new ArrayList<>(teeth);
    for (SelectionRule rule : practice.selection()) {
      if (left.isEmpty()) {
        break;
      }
      List<ToothChart> taken = taken(rule, area, pass, aspect, left);
      if (taken.isEmpty()) {
        continue;
      }
      left.removeAll(taken);
      Optional<Insert> insert = usable(rule, pass);
      if (insert.isPresent()) {
        choices.add(new Choice(rule, insert.get(), taken));
      } else {
        unworkable.add(unworkable(area, pass, aspect, taken, noInsert(rule, pass)));
      }
    }
    if (!left.isEmpty()) {
      unworkable.add(unworkable(area, pass, aspect, left, new Unworkable.NoRow()));
    }
    return new Selection(choices, unworkable);
  }

  private List<ToothChart> taken(
      SelectionRule rule, Area area, Pass pass, StepAspect aspect, List<ToothChart> left) {
    if (rule.pass() != pass || rule.byHand() != byHand || !placeHolds(rule.when(), area, aspect)) {
      return List.of();
    }
    if (rule.scope() == Scope.AREA) {
      return conditionHolds(rule.when(), left, aspect) ? List.copyOf(left) : List.of();
    }
    return left.stream()
        .filter(tooth -> conditionHolds(rule.when(), List.of(tooth), aspect))
        .toList();
  }

  /** A step that sweeps both aspects meets a condition on aspects only if both are named. */
  private static boolean placeHolds(When when, Area area, StepAspect aspect) {
    Boolean posterior = when.posterior();
    return holds(when.quadrants(), area.quadrant())
        && (posterior == null || posterior == area.posterior())
        && (when.aspects().isEmpty() || when.aspects().containsAll(aspect.aspects()));
  }

  private boolean conditionHolds(When when, List<ToothChart> teeth, StepAspect aspect) {
    double deepest = 0;
    Deposit worst = Deposit.NONE;
    int furcation = 0;
    for (ToothChart tooth : teeth) {
      for (Aspect side : aspect.aspects()) {
        deepest = Math.max(deepest, Depths.deepest(tooth, side, practice.minutes()));
      }
      worst = max(worst, tooth.deposit());
      furcation = Math.max(furcation, tooth.furcation());
    }
    Integer atLeast = when.depthAtLeastMm();
    Integer below = when.depthBelowMm();
    Integer furcationAtLeast = when.furcationAtLeast();
    return holds(when.deposits(), worst)
        && (atLeast == null || deepest >= atLeast)
        && (below == null || deepest < below)
        && (furcationAtLeast == null || furcation >= furcationAtLeast)
        && (when.anyFeature().isEmpty()
            || teeth.stream().anyMatch(tooth -> when.anyFeature().stream().anyMatch(tooth::has)));
  }

  private Optional<Insert> usable(SelectionRule rule, Pass pass) {
    return rule.use().stream()
        .filter(practice.inserts()::containsKey)
        .filter(name -> !notWished.contains(name))
        .map(practice.inserts()::get)
        .filter(insert -> mayBeUsed(insert, pass, rule.power()))
        .findFirst();
  }

  private static boolean mayBeUsed(Insert insert, Pass pass, Power power) {
    boolean implant = pass == Pass.IMPLANT_CARE;
    return insert.passes().contains(pass)
        && insert.powers().contains(power)
        && insert.forImplants() == implant
        && insert.hand() == (power == Power.NONE)
        && (!implant || power.compareTo(Power.LOW) <= 0);
  }

  private Unworkable.NoInsert noInsert(SelectionRule rule, Pass pass) {
    boolean implant = pass == Pass.IMPLANT_CARE;
    List<Unworkable.Unusable> unusable = new ArrayList<>();
    for (String name : rule.use()) {
      Insert insert = practice.inserts().get(name);
      if (insert == null) {
        unusable.add(new Unworkable.Unusable(name, Obstacle.NOT_OWNED));
      } else if (insert.forImplants() != implant) {
        unusable.add(
            new Unworkable.Unusable(
                name, implant ? Obstacle.BARE_METAL : Obstacle.FOR_IMPLANTS_ONLY));
      } else if (!insert.passes().contains(pass)) {
        unusable.add(new Unworkable.Unusable(name, Obstacle.NOT_FOR_THE_PASS));
      } else if (!insert.powers().contains(rule.power())) {
        unusable.add(new Unworkable.Unusable(name, Obstacle.NOT_AT_THE_POWER));
      } else if (notWished.contains(name)) {
        unusable.add(new Unworkable.Unusable(name, Obstacle.NOT_WISHED));
      }
    }
    return new Unworkable.NoInsert(
        rule, unusable, implant && rule.power().compareTo(Power.LOW) > 0);
  }

  private static Unworkable unworkable(
      Area area, Pass pass, StepAspect aspect, List<ToothChart> teeth, Unworkable.Why why) {
    return new Unworkable(area, pass, aspect, teeth.stream().map(ToothChart::tooth).toList(), why);
  }

  private static Deposit max(Deposit one, Deposit other) {
    return Comparator.<Deposit>naturalOrder().compare(one, other) >= 0 ? one : other;
  }

  private static <T> boolean holds(Set<T> allowed, T value) {
    return allowed.isEmpty() || allowed.contains(value);
  }
}
