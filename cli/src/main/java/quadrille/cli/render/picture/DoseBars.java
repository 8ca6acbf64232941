package quadrille.cli.render.picture;

import java.util.ArrayList;
import java.util.List;
import quadrille.cli.render.Words;
import quadrille.facts.chart.Chart;
import quadrille.facts.practice.Agent;
import quadrille.facts.practice.PatientRules;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.Dose;
import quadrille.plan.course.GivenInjection;
import quadrille.plan.course.Visit;

/**
 * What a visit gives against the most that the patient may have, one bar for each drug and one for
 * the sum of the shares where there are several. The end of a bar's track is the maximum.
 */
public record DoseBars(List<Bar> bars) {

  /** Length of a bar's track. */
  public static final int TRACK = 300;

  public DoseBars {
    bars = List.copyOf(bars);
  }

  /**
   * One bar.
   *
   * @param name what is given
   * @param given how much of how much
   * @param percent the share of the maximum, in words
   * @param width of the filled part, in the units of the track
   * @param over whether it is more than the maximum; no plan of the planner's own is
   * @param kind {@code drug}, {@code sum} or {@code vasoconstrictor}
   */
  public record Bar(
      String name, String given, String percent, String width, boolean over, String kind) {}

  /** The bars of a visit; none where it gives nothing. */
  public static DoseBars of(Visit visit, Chart chart, Practice practice) {
    List<Bar> bars = new ArrayList<>();
    for (Dose dose : visit.doses()) {
      boolean gel = practice.gel().name().equals(dose.agent());
      Agent agent = practice.agents().get(dose.agent());
      bars.add(
          bar(
              agent == null ? dose.agent() : agent.words(),
              amount(dose.mg(), dose.maxMg(), gel ? "cartridges" : "mg")
                  + (gel ? "" : "; " + Words.number(volume(visit, dose.agent()), 2) + "\u00a0mL"),
              dose.share(),
              "drug"));
    }
    if (visit.doses().size() > 1) {
      bars.add(bar("Shares together", "of at most 100\u00a0%", visit.doseShare(), "sum"));
    }
    if (visit.epinephrineMg() > 0) {
      double most = PatientRules.of(practice, chart.patient()).epinephrineCapMg();
      bars.add(
          bar(
              "Epinephrine",
              Words.number(visit.epinephrineMg(), 4)
                  + " of at most "
                  + Words.number(most, 3)
                  + "\u00a0mg",
              most > 0 ? visit.epinephrineMg() / most : 1,
              "vasoconstrictor"));
    }
    return new DoseBars(bars);
  }

  private static Bar bar(String name, String given, double share, String kind) {
    double drawn = Math.min(1, Math.max(0, share));
    return new Bar(
        name, given, Words.percent(share), Svg.number(TRACK * drawn), share > 1 + 1e-9, kind);
  }

  private static String amount(double given, double most, String unit) {
    return Words.number(given, 1) + " of at most " + Words.number(most, 1) + "\u00a0" + unit;
  }

  private static double volume(Visit visit, String agent) {
    return visit.injections().stream()
        .filter(given -> given.agent().equals(agent))
        .mapToDouble(GivenInjection::ml)
        .sum();
  }
}
