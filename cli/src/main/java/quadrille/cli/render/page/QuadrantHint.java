package quadrille.cli.render.page;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.SortedSet;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import quadrille.cli.render.Words;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.ToothChart;
import quadrille.facts.practice.CodeHint;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.Course;
import quadrille.plan.course.Entry;
import quadrille.plan.course.Visit;

/**
 * The desk's hint where codes count scaling and root planing by quadrant. It counts natural teeth
 * with a fine pass in the plan and a site that is deep enough for one; a tooth that gets its fine
 * pass for deposit or bleeding alone has no root to plane. For scheduling only: it chooses no
 * treatment and claims nothing.
 *
 * @param counted which teeth count, and why
 * @param rows one for each quadrant that has such teeth
 * @param prompts what to ask or to look at before booking
 */
public record QuadrantHint(String counted, List<Row> rows, List<String> prompts) {

  /**
   * A quadrant.
   *
   * @param names its counted teeth, in the chart's numbering
   * @param size on which side of the codes' limit it lies
   * @param visits in which they get their fine pass
   */
  public record Row(Quadrant quadrant, int teeth, String names, String size, String visits) {}

  /** Null where the practice did not switch it on. */
  static @Nullable QuadrantHint of(Course course, Chart chart, Practice practice) {
    return practice.codeHint().shown() ? shown(course, chart, practice) : null;
  }

  private static QuadrantHint shown(Course course, Chart chart, Practice practice) {
    double deep = practice.passes().fineDepthMm().value();
    SortedSet<Tooth> fine = new TreeSet<>();
    course.visits().forEach(visit -> fine.addAll(fine(visit)));
    List<Tooth> counted = fine.stream().filter(tooth -> counts(tooth, chart, deep)).toList();
    List<Row> rows = new ArrayList<>();
    for (Quadrant quadrant : Quadrant.values()) {
      List<Tooth> teeth = counted.stream().filter(tooth -> tooth.quadrant() == quadrant).toList();
      if (!teeth.isEmpty()) {
        rows.add(row(quadrant, teeth, course, chart, practice.codeHint()));
      }
    }
    return new QuadrantHint(
        "Counted: natural teeth with a fine pass in this plan and a site of "
            + Words.number(deep, 1)
            + " mm or more, where roots are worked on.",
        List.copyOf(rows),
        prompts(course, chart, practice, List.copyOf(fine), counted));
  }

  private static SortedSet<Tooth> fine(Visit visit) {
    SortedSet<Tooth> teeth = new TreeSet<>();
    for (Entry.Debride step : visit.steps()) {
      if (step.pass() == Pass.FINE) {
        teeth.addAll(step.teeth());
      }
    }
    return teeth;
  }

  private static boolean counts(Tooth tooth, Chart chart, double deep) {
    return chart
        .tooth(tooth)
        .filter(charted -> probed(charted, deep) || unprobed(charted))
        .isPresent();
  }

  private static boolean probed(ToothChart tooth, double deep) {
    return tooth.sites().stream()
        .anyMatch(
            site -> {
              Integer depth = site.depthMm();
              return depth != null && depth >= deep;
            });
  }

  private static boolean unprobed(ToothChart tooth) {
    return tooth.sites().stream().anyMatch(site -> site.depthMm() == null);
  }

  private static Row row(
      Quadrant quadrant, List<Tooth> teeth, Course course, Chart chart, CodeHint hint) {
    int full = hint.fullQuadrantTeeth().asInt();
    List<String> visits =
        course.visits().stream()
            .filter(visit -> fine(visit).stream().anyMatch(teeth::contains))
            .map(visit -> Integer.toString(visit.number()))
            .toList();
    return new Row(
        quadrant,
        teeth.size(),
        Words.teeth(teeth, chart.numbering()),
        teeth.size() >= full ? full + " teeth or more" : Words.range(1, full - 1) + " teeth",
        String.join(", ", visits));
  }

  private static List<String> prompts(
      Course course, Chart chart, Practice practice, List<Tooth> fine, List<Tooth> counted) {
    List<String> prompts = new ArrayList<>(manyQuadrants(course, counted, practice.codeHint()));
    double deep = practice.passes().fineDepthMm().value();
    List<Tooth> unsure =
        counted.stream()
            .filter(tooth -> chart.tooth(tooth).filter(one -> !probed(one, deep)).isPresent())
            .toList();
    if (!unsure.isEmpty()) {
      prompts.add(
          "Counted for sites that could not be probed, so count again when they are: "
              + Words.teeth(unsure, chart.numbering())
              + ".");
    }
    List<Tooth> shallow = fine.stream().filter(tooth -> !counted.contains(tooth)).toList();
    if (!shallow.isEmpty()) {
      prompts.add(
          "Not counted, since no site is "
              + Words.number(deep, 1)
              + " mm deep (fine pass for deposit or bleeding): "
              + Words.teeth(shallow, chart.numbering())
              + ".");
    }
    if (!course.heldBack().isEmpty()) {
      prompts.add("Work held back is not counted.");
    }
    return List.copyOf(prompts);
  }

  /** By day: visits of a course without a gap are all on one. */
  private static List<String> manyQuadrants(Course course, List<Tooth> counted, CodeHint hint) {
    Map<String, SortedSet<Quadrant>> days = new LinkedHashMap<>();
    for (Visit visit : course.visits()) {
      String day =
          course.visits().size() > 1 && course.gapMinDays() == 0
              ? "All visits on one day"
              : "Visit " + visit.number();
      SortedSet<Quadrant> quadrants = days.computeIfAbsent(day, d -> new TreeSet<>());
      fine(visit).stream().filter(counted::contains).map(Tooth::quadrant).forEach(quadrants::add);
    }
    int most = hint.quadrantsDay().asInt();
    return days.entrySet().stream()
        .filter(day -> day.getValue().size() > most)
        .map(
            day ->
                day.getKey()
                    + " would count "
                    + day.getValue().size()
                    + " quadrants ("
                    + String.join(", ", day.getValue().stream().map(Quadrant::toString).toList())
                    + "); payers often question more than "
                    + most
                    + " a day: ask before booking.")
        .toList();
  }
}
