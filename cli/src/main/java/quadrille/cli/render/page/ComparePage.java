package quadrille.cli.render.page;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import quadrille.cli.render.ChoiceWords;
import quadrille.cli.render.ExtraVisits;
import quadrille.cli.render.MindWords;
import quadrille.cli.render.ReasonWords;
import quadrille.cli.render.SettingsTable;
import quadrille.cli.render.WishWords;
import quadrille.cli.render.Words;
import quadrille.cli.render.picture.CourseLines;
import quadrille.cli.render.picture.FrontChart;
import quadrille.cli.render.picture.VisitCountChart;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Numbering;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.Course;
import quadrille.plan.course.OneVisitFewer;
import quadrille.plan.scenario.Choice;
import quadrille.plan.scenario.Comparison;
import quadrille.plan.scenario.CourseFigures;

/**
 * A comparison to be looked at: tables, and the same in pictures.
 *
 * @param stops what is asked at every visit
 * @param tables one for each set of conditions, then the rules of thumb; of many conditions only
 *     the practice as it is
 * @param settings many conditions on one sheet; null where each has its table
 * @param front all choices in one picture
 * @param lines the courses one under the other
 * @param fewer heads what one visit fewer would need; empty where that was not sought
 * @param needs what it would need, a line each
 * @param wishes what became of them, a line each
 * @param notes what holds for all
 */
public record ComparePage(
    Heading heading,
    boolean nothingDue,
    List<String> stops,
    List<Table> tables,
    @Nullable SettingsTable settings,
    FrontChart front,
    CourseLines lines,
    String fewer,
    List<String> needs,
    List<String> wishes,
    List<String> notes) {

  /** What the cells of a row say. */
  public static final List<String> COLUMNS =
      List.of(
          "Chair",
          "Booked",
          "Longest",
          "Changes",
          "Injections",
          "Cartridges",
          "Dose",
          "Risk",
          "Days",
          "Cost");

  private static final String LETTERS = "WXYZ";

  /**
   * A table.
   *
   * @param counts its picture; null for the rules of thumb
   * @param sentences what each extra visit buys
   * @param hints what a clinician is asked to mind
   */
  public record Table(
      String title,
      List<Row> rows,
      @Nullable VisitCountChart counts,
      List<String> sentences,
      List<String> hints) {}

  /**
   * A row.
   *
   * @param key by which the pictures name it
   * @param cells its figures in the order of the table's columns; empty where it is not possible
   * @param obstacles why it is not possible
   */
  public record Row(
      String key, String words, boolean unbeaten, List<String> cells, List<String> obstacles) {}

  static ComparePage of(Chart chart, Practice practice, Comparison comparison) {
    List<Table> tables = new ArrayList<>();
    List<FrontChart.Point> points = new ArrayList<>();
    List<CourseLines.Named> courses = new ArrayList<>();
    boolean gathered = SettingsTable.gathers(comparison);
    for (int i = 0; i < (gathered ? 1 : comparison.groups().size()); i++) {
      Comparison.Group group = comparison.groups().get(i);
      if (group.choices().isEmpty()) {
        continue;
      }
      String letter = i == 0 ? "" : letter(i - 1);
      List<String> keys = group.choices().stream().map(c -> letter + c.visits()).toList();
      String words = i == 0 ? "" : ChoiceWords.conditions(group.whatIf()) + ", ";
      tables.add(
          new Table(
              ChoiceWords.heading(group.whatIf()),
              rows(keys, group.choices(), chart, practice),
              VisitCountChart.of(group.choices()),
              ExtraVisits.sentences(group.choices()),
              hints(group.choices())));
      add(points, courses, keys, words, group.choices());
    }
    List<Choice> rules = comparison.rulesOfThumb();
    if (!rules.isEmpty()) {
      List<String> keys =
          Stream.iterate(1, number -> number + 1).limit(rules.size()).map(n -> "R" + n).toList();
      List<String> hints = new ArrayList<>(hints(rules));
      if (chart.numbering() != Numbering.ISO3950 && rules.stream().anyMatch(r -> !r.feasible())) {
        hints.add("Teeth are named by their ISO 3950 codes in this table.");
      }
      tables.add(
          new Table(
              "Rules of thumb, the practice as it is",
              rows(keys, rules, chart, practice),
              null,
              List.of(),
              hints));
      add(points, courses, keys, "", rules);
    }
    OneVisitFewer fewer = comparison.oneVisitFewer();
    return new ComparePage(
        Heading.of(chart.caseName(), chart, practice),
        comparison.nothingDue(),
        ChoiceWords.asked(comparison).stream().map(MindWords::of).toList(),
        tables,
        gathered ? SettingsTable.of(comparison) : null,
        FrontChart.of(points),
        CourseLines.of(courses),
        fewer == null ? "" : ReasonWords.fewerThan(fewer),
        fewer == null ? List.of() : ReasonWords.needs(fewer, practice),
        WishWords.of(comparison, chart.numbering()),
        ChoiceWords.notes(comparison, practice).stream()
            .map(note -> Words.capital(note) + ".")
            .toList());
  }

  private static String letter(int index) {
    return LETTERS.charAt(index % LETTERS.length()) + (index < LETTERS.length() ? "" : "'");
  }

  private static void add(
      List<FrontChart.Point> points,
      List<CourseLines.Named> courses,
      List<String> keys,
      String before,
      List<Choice> choices) {
    for (int i = 0; i < choices.size(); i++) {
      CourseFigures figures = choices.get(i).figures();
      Course course = choices.get(i).course();
      if (figures != null) {
        points.add(new FrontChart.Point(keys.get(i), figures, choices.get(i).unbeaten()));
      }
      if (course != null) {
        courses.add(
            new CourseLines.Named(keys.get(i), before + ChoiceWords.name(choices.get(i)), course));
      }
    }
  }

  private static List<Row> rows(
      List<String> keys, List<Choice> choices, Chart chart, Practice practice) {
    List<Row> rows = new ArrayList<>();
    for (int i = 0; i < choices.size(); i++) {
      Choice choice = choices.get(i);
      rows.add(
          new Row(
              keys.get(i),
              ChoiceWords.name(choice),
              choice.unbeaten(),
              ChoiceWords.cells(choice.figures()),
              ChoiceWords.obstacles(choice, chart, practice)));
    }
    return List.copyOf(rows);
  }

  /** Each hint once, with the rows that it is about. */
  private static List<String> hints(List<Choice> choices) {
    return ChoiceWords.hints(choices).entrySet().stream()
        .map(hint -> Words.capital(String.join(", ", hint.getValue())) + ": " + hint.getKey() + ".")
        .toList();
  }
}
