package quadrille.cli.render.page;

import java.util.List;
import java.util.Objects;
import java.util.stream.Collectors;
import quadrille.cli.render.MindWords;
import quadrille.cli.render.PlanFileWords;
import quadrille.cli.render.Words;
import quadrille.cli.render.picture.DoseBars;
import quadrille.cli.render.picture.InsertMarks;
import quadrille.cli.render.picture.TodayRing;
import quadrille.cli.render.picture.VisitStrip;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.History;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.Course;
import quadrille.plan.course.GivenInjection;
import quadrille.plan.course.Kit;
import quadrille.plan.course.Visit;

/**
 * A visit on one sheet beside the chair.
 *
 * @param number of the visit
 * @param of number of the course's last visit
 * @param numb which side is numb, in words
 * @param expected whole minutes
 * @param risk of running over, a percentage
 * @param alerts the patient's, in words
 * @param stops what a person answers before anything is touched
 * @param ring the areas worked on
 * @param type the style class of its type's size
 * @param tray the inserts to lay out
 * @param extras sleeves and gel to lay out, in words
 * @param gel whether pocket gel is used
 * @param injections in the order given
 * @param depths of the teeth worked on
 * @param layout what stands where
 */
public record VisitSheet(
    int number,
    int of,
    String numb,
    int bookedMinutes,
    String expected,
    String risk,
    String alerts,
    List<String> stops,
    TodayRing ring,
    String type,
    VisitStrip strip,
    List<SequenceRow> rows,
    List<InsertMarks.Mark> tray,
    List<String> extras,
    boolean gel,
    List<Given> injections,
    String cartridges,
    DoseBars doses,
    List<ToothDepths> depths,
    List<String> watch,
    Layout layout) {

  /**
   * What stands where, so that a sheet fills one side of paper and no more.
   *
   * @param depthsBeside whether depths stand in the side column, and not beneath the sequence
   * @param beside the cautions that stand in the side column
   * @param below those that stand across the foot, since they are too many for the side
   * @param lines about how many lines the sheet's longest column holds, the foot counted in
   */
  public record Layout(
      boolean depthsBeside, List<String> beside, List<String> below, double lines) {

    /** As usual where that fits in the smallest type; else the shortest there is. */
    static Layout of(double asked, double rows, double right, int depths, List<String> cautions) {
      Layout shortest = null;
      for (boolean depthsBeside : new boolean[] {false, true}) {
        for (int beside = cautions.size(); beside >= 0; beside--) {
          List<String> first = cautions.subList(0, beside);
          List<String> rest = cautions.subList(beside, cautions.size());
          double left = rows + (depthsBeside ? 0 : (depths + 1) / 2);
          double side = right + TypeSize.lines(first, 27) + (depthsBeside ? depths + 1 : 0);
          double foot = rest.isEmpty() ? 0 : 1 + TypeSize.lines(rest, 35) / 3.0;
          double lines = asked + Math.max(left, side) + foot;
          if (shortest == null || lines < shortest.lines) {
            shortest = new Layout(depthsBeside, List.copyOf(first), List.copyOf(rest), lines);
          }
          if (!TypeSize.beyond(shortest.lines)) {
            return shortest;
          }
        }
      }
      return Objects.requireNonNull(shortest);
    }
  }

  /** An injection as it is drawn up. */
  public record Given(String where, String ml, String agent) {}

  static List<VisitSheet> of(Course course, Chart chart, Practice practice, InsertMarks marks) {
    List<VisitStrip> strips = VisitStrip.of(course, chart, practice, marks);
    return java.util.stream.IntStream.range(0, strips.size())
        .mapToObj(i -> of(course.visits().get(i), strips.get(i), course, chart, practice, marks))
        .toList();
  }

  private static VisitSheet of(
      Visit visit,
      VisitStrip strip,
      Course course,
      Chart chart,
      Practice practice,
      InsertMarks marks) {
    List<SequenceRow> rows = SequenceRow.of(visit, chart, practice, marks);
    List<ToothDepths> depths = ToothDepths.of(visit, chart);
    List<Given> injections =
        visit.injections().stream().map(given -> given(given, chart, practice)).toList();
    DoseBars doses = DoseBars.of(visit, chart, practice);
    List<String> watch =
        visit.watch().stream()
            .map(site -> PlanFileWords.of(practice).watch(site, chart.numbering()))
            .toList();
    List<String> cautions =
        MindWords.cautions(visit.cautions(), chart.numbering()).stream()
            .map(Words::capital)
            .toList();
    List<String> stops = MindWords.stopQuestions(visit);
    double right =
        11
            + TypeSize.lines(injections.stream().map(Given::where).toList(), 30)
            + 3.2 * doses.bars().size()
            + TypeSize.lines(watch, 30);
    Layout layout =
        Layout.of(TypeSize.lines(stops, 100), rows.size(), right, depths.size(), cautions);
    return new VisitSheet(
        visit.number(),
        course.lastNumber(),
        numb(visit),
        visit.bookedMinutes(),
        Words.minutes(visit.expectedSeconds()),
        Words.risk(visit.overrunRisk()),
        alerts(chart),
        stops,
        TodayRing.of(visit, chart),
        TypeSize.of(layout.lines()),
        strip,
        rows,
        visit.tray().stream().map(marks::of).toList(),
        extras(visit, practice),
        visit.gelCartridges() > 0,
        injections,
        visit.cartridges() == 0 ? "" : Words.count(visit.cartridges(), "cartridge") + " opened",
        doses,
        depths,
        watch,
        layout);
  }

  static String numb(Visit visit) {
    if (visit.injections().isEmpty()) {
      return visit.gelCartridges() > 0 ? "gel only" : "nothing numb";
    }
    return Words.numb(visit) + " numb" + (visit.gelCartridges() > 0 ? ", and gel" : "");
  }

  /** The patient's alerts, as the chart has them. */
  static String alerts(Chart chart) {
    History history = chart.patient().history();
    if (!history.taken()) {
      return "NOT KNOWN: nobody has taken the history";
    }
    return history.alerts().isEmpty()
        ? "none charted"
        : history.alerts().stream()
            .map(alert -> alert.word().replace('-', ' '))
            .collect(Collectors.joining(", "));
  }

  private static List<String> extras(Visit visit, Practice practice) {
    java.util.ArrayList<String> extras = new java.util.ArrayList<>();
    if (visit.sleeves() > 0) {
      extras.add(Words.count(visit.sleeves(), "new implant sleeve"));
    }
    if (visit.gelCartridges() > 0) {
      extras.add(
          Words.count(Kit.of(List.of(visit)).gelCartridges(), "cartridge")
              + " of "
              + practice.gel().name());
    }
    return List.copyOf(extras);
  }

  private static Given given(GivenInjection given, Chart chart, Practice practice) {
    return new Given(
        Words.capital(Words.injection(given.ref(), chart.numbering(), practice)),
        Words.number(given.ml(), 2),
        Words.agent(given.agent(), practice));
  }
}
