package quadrille.plan.work;

import java.util.Collections;
import java.util.List;
import java.util.SortedSet;
import java.util.TreeSet;
import quadrille.facts.chart.Area;
import quadrille.facts.chart.Tooth;
import quadrille.facts.practice.Insert;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.Power;

/**
 * One sweep: one area, one aspect, one pass, one insert, one power level.
 *
 * @param id 0, 1, 2 … in the order of the work list
 * @param seconds working seconds, 1 or more
 * @param teeth the teeth swept, sorted; a single one for an implant
 * @param needs what must be numb by injection; empty where nothing need be
 * @param gel whether pocket gel is put in just before, instead of an injection
 * @param chartSeconds charting of teeth with sites that were not probed: before a step of the fine
 *     pass its own sites, with a step of the gross pass those of its area at the end of the visit
 * @param rule name of the selection rule that chose the insert
 */
public record Step(
    int id,
    Area area,
    Pass pass,
    StepAspect aspect,
    Insert insert,
    Power power,
    int seconds,
    List<Tooth> teeth,
    SortedSet<Target> needs,
    boolean gel,
    int chartSeconds,
    String rule) {

  public Step {
    teeth = teeth.stream().sorted().toList();
    needs = Collections.unmodifiableSortedSet(new TreeSet<>(needs));
  }

  /** Whether an injection must have taken before this step. */
  public boolean needsInjection() {
    return !needs.isEmpty();
  }

  /** Whether this step works on an implant. */
  public boolean implant() {
    return pass == Pass.IMPLANT_CARE;
  }

  /** Seconds of charting just before it. */
  public int chartSecondsBefore() {
    return pass == Pass.GROSS ? 0 : chartSeconds;
  }

  /** Seconds of charting at the end of its visit. */
  public int chartSecondsAfter() {
    return pass == Pass.GROSS ? chartSeconds : 0;
  }

  Step withId(int other) {
    return new Step(
        other, area, pass, aspect, insert, power, seconds, teeth, needs, gel, chartSeconds, rule);
  }

  Step withChartSeconds(int seconds) {
    return new Step(
        id, area, pass, aspect, insert, power, this.seconds, teeth, needs, gel, seconds, rule);
  }

  /** In words, such as {@code UR posterior, fine, facial (17 16 15), slim curved right}. */
  public String words() {
    return area.ref()
        + ", "
        + pass.word()
        + ", "
        + aspect.word()
        + " ("
        + teethWords()
        + "), "
        + insert.name();
  }

  private String teethWords() {
    return String.join(" ", teeth.stream().map(Tooth::toString).toList());
  }
}
