package quadrille.cli.render;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Numbering;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.OneVisitFewer;
import quadrille.plan.course.StopQuestion;
import quadrille.plan.scenario.Choice;
import quadrille.plan.scenario.Comparison;
import quadrille.plan.scenario.CourseFigures;

/** Courses of one mouth side by side, as a table for a person. */
public final class CompareText {

  private static final int NAME = 22;
  private static final int SETTING = 36;
  private static final int SETTING_CELL = 7;

  private final Chart chart;
  private final Practice practice;
  private final Page page;

  private CompareText(Chart chart, Practice practice, boolean styled) {
    this.chart = chart;
    this.practice = practice;
    this.page = new Page(styled);
  }

  /**
   * Renders a comparison.
   *
   * @param chart the mouth, for its name and numbering
   * @param practice whose rules hold
   * @param styled whether headings are set off by terminal codes
   */
  public static String of(Chart chart, Practice practice, Comparison comparison, boolean styled) {
    CompareText text = new CompareText(chart, practice, styled);
    text.top();
    text.stops(comparison);
    if (SettingsTable.gathers(comparison)) {
      text.group(comparison.groups().get(0));
      text.settings(SettingsTable.of(comparison));
    } else {
      comparison.groups().forEach(text::group);
    }
    text.rulesOfThumb(comparison.rulesOfThumb());
    text.end(comparison);
    return text.page.text();
  }

  private void top() {
    page.heading(
        "Comparison for "
            + chart.caseName()
            + (chart.charted() == null ? "" : ", charted " + chart.charted()));
    page.paragraph(PlanText.PROPOSAL);
    page.paragraph(
        "Practice file: "
            + practice.name()
            + ". Maximum doses: "
            + practice.ruleSet().word()
            + " rule set.");
  }

  private void stops(Comparison comparison) {
    List<StopQuestion> asked = ChoiceWords.asked(comparison);
    if (!asked.isEmpty()) {
      page.heading("STOP at every visit, answered before anything is touched");
      page.items(asked.stream().map(MindWords::of).toList());
    }
  }

  private void group(Comparison.Group group) {
    if (group.choices().isEmpty()) {
      return;
    }
    page.heading(ChoiceWords.heading(group.whatIf()));
    table(group.choices(), "not possible");
    List<String> sentences = ExtraVisits.sentences(group.choices());
    if (!sentences.isEmpty()) {
      page.blank();
      page.items(sentences);
    }
    hints(group.choices());
  }

  private void settings(SettingsTable table) {
    page.heading("What if, one thing changed at a time");
    page.line(settingsRow("Visits", table.visits().stream().map(String::valueOf).toList()));
    table.rows().forEach(row -> page.line(settingsRow(row.name(), row.cells())));
    page.paragraph(Words.capital(SettingsTable.CELLS) + ".");
    if (!table.sentences().isEmpty()) {
      page.blank();
      page.items(table.sentences());
    }
  }

  private static String settingsRow(String name, List<String> cells) {
    StringBuilder line = new StringBuilder(Page.pad(name, SETTING));
    cells.forEach(cell -> line.append(Page.padLeft(cell, SETTING_CELL)));
    return line.toString();
  }

  private void rulesOfThumb(List<Choice> rules) {
    if (rules.isEmpty()) {
      return;
    }
    page.heading("Rules of thumb, the practice as it is");
    table(rules, "breaks rules");
    if (chart.numbering() != Numbering.ISO3950
        && rules.stream().anyMatch(rule -> !rule.feasible())) {
      page.paragraph("Teeth are named by their ISO 3950 codes here.");
    }
    hints(rules);
  }

  private void table(List<Choice> choices, String no) {
    row(
        List.of(
            "", "", "Chair", "Booked", "Longest", "Tips", "Inj", "Cart", "Dose", "Risk", "Days",
            "Cost"));
    String before = "";
    for (Choice choice : choices) {
      CourseFigures figures = choice.figures();
      if (figures == null) {
        String obstacles = no + ": " + ChoiceWords.obstacleLine(choice, chart, practice);
        page.hang(
            "  " + ChoiceWords.name(choice),
            NAME + 1,
            obstacles.equals(before) ? no + ", as above" : obstacles);
        before = obstacles;
        continue;
      }
      List<String> cells = new ArrayList<>();
      cells.add(choice.unbeaten() ? "*" : "");
      cells.add(ChoiceWords.name(choice));
      cells.addAll(ChoiceWords.cells(figures));
      row(cells);
    }
  }

  private void row(List<String> cells) {
    int[] widths = {2, NAME - 2, 6, 7, 8, 5, 4, 5, 6, 6, 5, 6};
    StringBuilder line = new StringBuilder();
    for (int i = 0; i < widths.length; i++) {
      line.append(
          i < 2 ? Page.pad(cells.get(i), widths[i]) : Page.padLeft(cells.get(i), widths[i]));
    }
    page.line(line.toString());
  }

  /** Each hint once, with the rows that it is about. */
  private void hints(List<Choice> choices) {
    Map<String, List<String>> rows = ChoiceWords.hints(choices);
    if (!rows.isEmpty()) {
      page.blank();
      rows.forEach((hint, names) -> page.item(String.join(", ", names) + ": " + hint + "."));
    }
  }

  private void end(Comparison comparison) {
    OneVisitFewer fewer = comparison.oneVisitFewer();
    if (fewer != null) {
      page.heading(ReasonWords.fewerThan(fewer));
      page.items(ReasonWords.needs(fewer, practice));
    }
    List<String> wishes = WishWords.of(comparison, chart.numbering());
    if (!wishes.isEmpty()) {
      page.heading("Wishes, the practice as it is").items(wishes);
    }
    List<String> notes = ChoiceWords.notes(comparison, practice);
    if (!notes.isEmpty()) {
      page.heading("To mind");
      notes.forEach(note -> page.item(Words.capital(note) + "."));
    }
    if (comparison.nothingDue()) {
      return;
    }
    page.heading("How to read the tables");
    page.hang(
        "*",
        2,
        "Nothing else here is at least as good in chair time, number of visits, longest visit and"
            + " dose, and better in one of them.");
    page.item(
        "Chair: expected minutes of all visits. Booked: minutes of all visits. Longest: the longest"
            + " visit's booked minutes. Tips, Inj, Cart: tip changes, injections, cartridges"
            + " opened.");
    page.item(
        "Dose: the largest share of the maximum that a visit gives, or a day where all visits are"
            + " on one. Risk: that any visit runs over its booked time. Days: from first visit to"
            + " last at the shortest gap. Cost: all goals weighed, in minutes of chair time.");
    page.item(
        "A rule of thumb is done as usual: injections at the start, gross, fine, finishing, implant"
            + " care, area by area, facial before lingual.");
  }
}
