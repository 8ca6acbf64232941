package quadrille.cli.render.page;

import java.util.List;
import java.util.stream.Stream;
import quadrille.cli.render.CostText;
import quadrille.cli.render.MindWords;
import quadrille.cli.render.ReasonWords;
import quadrille.cli.render.WholeMinutes;
import quadrille.cli.render.WishWords;
import quadrille.cli.render.Words;
import quadrille.cli.render.picture.InsertMarks;
import quadrille.cli.render.picture.MouthMap;
import quadrille.facts.chart.Chart;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.Course;
import quadrille.plan.course.Visit;

/**
 * What lies beside the chair: a sheet on the course, then a sheet a visit.
 *
 * @param summary the course in a sentence
 * @param alerts the patient's, in words
 * @param held work left out
 * @param glance the visits in a table
 * @param assumptions what the numbers rest on
 * @param why why these visits, a line each
 * @param fewer what one visit fewer would need, a line each
 * @param wishes what became of what was wished, a line each
 * @param distance how far from the best there can be; empty where nothing is planned
 */
public record ChairsidePage(
    Heading heading,
    String summary,
    String alerts,
    List<String> stops,
    List<HeldWork> held,
    MouthMap map,
    List<Glance> glance,
    Totals totals,
    List<String> cautions,
    List<String> assumptions,
    List<String> why,
    List<String> fewer,
    List<String> wishes,
    String distance,
    List<InsertMarks.Mark> marks,
    List<VisitSheet> visits) {

  /** So many lines leave room for a large map. */
  private static final int FEW_LINES = 9;

  /** With more lines a sheet takes its smallest type; tried on Letter paper. */
  private static final int MANY_LINES = 22;

  /** A visit at a glance. */
  public record Glance(
      int visit,
      String numb,
      int bookedMinutes,
      String expected,
      String risk,
      int injections,
      int cartridges,
      String dose,
      int tipChanges,
      String areas) {}

  /** The sums of the course. */
  public record Totals(
      int bookedMinutes, String expected, int injections, int cartridges, int tipChanges) {}

  static ChairsidePage of(Course course, Chart chart, Practice practice) {
    InsertMarks marks = InsertMarks.of(course);
    return new ChairsidePage(
        Heading.of(course, chart, practice),
        summary(course),
        VisitSheet.alerts(chart),
        MindWords.stopQuestions(course),
        HeldWork.of(course, chart, practice),
        MouthMap.of(course, chart),
        course.visits().stream().map(visit -> glance(visit, chart)).toList(),
        new Totals(
            course.bookedMinutes(),
            expected(course),
            course.injections(),
            course.cartridges(),
            course.tipChanges()),
        Stream.concat(
                MindWords.cautions(course.cautions(), chart.numbering()).stream(),
                MindWords.leftOpen(course, chart.numbering()).stream())
            .toList(),
        MindWords.assumptions(course),
        ReasonWords.why(course),
        ReasonWords.needs(course, practice),
        WishWords.of(course, chart.numbering()),
        course.visits().isEmpty() ? "" : CostText.distance(course),
        marks.all(),
        VisitSheet.of(course, chart, practice, marks));
  }

  /** The sum of what the visits' own rows say. */
  private static String expected(Course course) {
    int minutes =
        course.visits().stream().mapToInt(v -> WholeMinutes.at(v.expectedSeconds())).sum();
    return minutes + "\u00a0min";
  }

  /** The style class of the first sheet: how much besides the map has to find a place on it. */
  public String type() {
    int held =
        held().stream()
            .mapToInt(
                work ->
                    1
                        + TypeSize.lines(List.of(work.reason(), work.note()), 110)
                        + (TypeSize.lines(work.lines(), 55) + 1) / 2)
            .sum();
    int asked = TypeSize.lines(stops, 110);
    if (2 * glance.size() + held + asked + TypeSize.lines(cautions, 110) <= FEW_LINES) {
      return "roomy";
    }
    int areas = TypeSize.lines(glance.stream().map(Glance::areas).toList(), 50);
    int lists =
        Stream.of(why, fewer, wishes, cautions)
            .filter(list -> !list.isEmpty())
            .mapToInt(list -> 2 + TypeSize.lines(list, 110))
            .sum();
    return asked + held + areas + lists > MANY_LINES ? "packed" : "crowded";
  }

  private static Glance glance(Visit visit, Chart chart) {
    return new Glance(
        visit.number(),
        numb(visit),
        visit.bookedMinutes(),
        Words.minutes(visit.expectedSeconds()),
        Words.risk(visit.overrunRisk()),
        visit.injections().size(),
        visit.cartridges(),
        visit.doses().isEmpty() ? "–" : Words.percent(visit.doseShare()),
        visit.tipChanges(),
        String.join(", ", visit.areas().stream().map(area -> Words.area(area, chart)).toList()));
  }

  /** In a column that says that this is numb. */
  private static String numb(Visit visit) {
    return visit.injections().isEmpty()
        ? VisitSheet.numb(visit)
        : Words.numbPlace(visit) + (visit.gelCartridges() > 0 ? ", and gel" : "");
  }

  private static String summary(Course course) {
    if (course.visits().isEmpty()) {
      return "Nothing is due: no visit is planned.";
    }
    return Words.count(course.visits().size(), "visit")
        + (course.visits().size() < 2 ? "" : ", " + BookingWords.gap(course))
        + ". "
        + Words.sentence(Words.afterwards(course));
  }
}
