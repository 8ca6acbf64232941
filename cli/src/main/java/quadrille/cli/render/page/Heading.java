package quadrille.cli.render.page;

import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Numbering;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.Course;

/**
 * What each sheet for the practice says at its top.
 *
 * @param charted the day of charting as ISO 8601, or empty
 * @param practice the practice file's name
 * @param ruleSet which set of maximum doses holds
 * @param numbering how teeth are named
 */
public record Heading(
    String caseName, String charted, String practice, String ruleSet, String numbering) {

  static Heading of(Course course, Chart chart, Practice practice) {
    return of(course.caseName(), chart, practice);
  }

  static Heading of(String caseName, Chart chart, Practice practice) {
    return new Heading(
        caseName,
        chart.charted() == null ? "" : chart.charted().toString(),
        practice.name(),
        practice.ruleSet().word(),
        chart.numbering() == Numbering.UNIVERSAL
            ? "Teeth are numbered 1 to 32 from the upper right third molar."
            : "Teeth are ISO 3950 codes.");
  }
}
