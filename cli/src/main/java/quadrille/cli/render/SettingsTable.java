package quadrille.cli.render;

import java.util.ArrayList;
import java.util.List;
import quadrille.plan.scenario.Choice;
import quadrille.plan.scenario.Comparison;
import quadrille.plan.scenario.CourseFigures;

/**
 * Many conditions on one sheet: a row for each, a column for each number of visits.
 *
 * @param visits numbers of visits, ascending
 * @param rows the practice as it is first
 * @param sentences which conditions save visits and which cost some
 */
public record SettingsTable(List<Integer> visits, List<Row> rows, List<String> sentences) {

  /** What the cells hold. */
  public static final String CELLS =
      "chair minutes / longest visit's minutes; - where no course keeps every hard rule";

  /** More tables than this are gathered in one; so many can still be read one by one. */
  private static final int APART = 3;

  /**
   * A row.
   *
   * @param cells one for each number of visits
   */
  public record Row(String name, List<String> cells) {
    public Row {
      cells = List.copyOf(cells);
    }
  }

  public SettingsTable {
    visits = List.copyOf(visits);
    rows = List.copyOf(rows);
    sentences = List.copyOf(sentences);
  }

  /** Whether a comparison has more conditions than can be read one by one. */
  public static boolean gathers(Comparison comparison) {
    return comparison.groups().size() > APART;
  }

  /** The table of a comparison. */
  public static SettingsTable of(Comparison comparison) {
    List<Integer> visits =
        comparison.groups().stream()
            .flatMap(group -> group.choices().stream())
            .map(Choice::visits)
            .distinct()
            .sorted()
            .toList();
    List<Row> rows = new ArrayList<>();
    List<String> sentences = new ArrayList<>();
    int before = 0;
    for (Comparison.Group group : comparison.groups()) {
      String name = ChoiceWords.conditions(group.whatIf());
      rows.add(new Row(name, visits.stream().map(number -> cell(group, number)).toList()));
      int fewest = fewest(group);
      if (rows.size() == 1) {
        before = fewest;
      } else if (fewest != before) {
        sentences.add(Words.capital(name) + ": " + changed(fewest, before) + ".");
      }
    }
    return new SettingsTable(visits, rows, sentences);
  }

  /** The heads of the columns, such as {@code 3 visits}. */
  public List<String> columns() {
    return visits.stream().map(RuleWords::visits).toList();
  }

  private static String changed(int fewest, int before) {
    if (fewest == 0) {
      return "no course that keeps every hard rule";
    }
    return RuleWords.visits(fewest) + (before == 0 ? " will do" : " instead of " + before);
  }

  /** The fewest visits that will do; 0 where none do. */
  private static int fewest(Comparison.Group group) {
    return group.choices().stream()
        .filter(Choice::feasible)
        .mapToInt(Choice::visits)
        .min()
        .orElse(0);
  }

  private static String cell(Comparison.Group group, int visits) {
    for (Choice choice : group.choices()) {
      CourseFigures figures = choice.figures();
      if (choice.visits() == visits && figures != null) {
        return Math.round(figures.chairSeconds() / 60.0) + "/" + figures.longestMinutes();
      }
    }
    return "-";
  }
}
