package quadrille.cli.render;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import org.jspecify.annotations.Nullable;
import quadrille.document.JsonLayout;
import quadrille.facts.chart.Chart;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.Course;
import quadrille.plan.course.OneVisitFewer;
import quadrille.plan.course.PlanWriter;
import quadrille.plan.scenario.Choice;
import quadrille.plan.scenario.Comparison;
import quadrille.plan.scenario.ComparisonReader;
import quadrille.plan.scenario.CourseFigures;
import quadrille.plan.scenario.RuleOfThumb;
import quadrille.plan.scenario.WhatIf;

/**
 * Courses of one mouth side by side, as JSON, each with its plan, so that whoever has the file can
 * audit them and draw their page.
 */
public final class CompareJson {

  private CompareJson() {}

  /** Renders a comparison; minutes have two decimals, shares and risks four. */
  public static String of(Chart chart, Practice practice, Comparison comparison) {
    ObjectNode root = Json.object();
    root.put("schema", ComparisonReader.SCHEMA);
    root.put("case", chart.caseName());
    root.put("practice", practice.name());
    Json.stopQuestions(root, ChoiceWords.asked(comparison));
    ArrayNode groups = root.putArray("groups");
    for (Comparison.Group group : comparison.groups()) {
      ObjectNode node = groups.addObject();
      conditions(node.putObject("conditions"), group.whatIf());
      ArrayNode choices = node.putArray("choices");
      group.choices().forEach(choice -> choice(choices.addObject(), choice, chart, practice));
      texts(node, "sentences", ExtraVisits.sentences(group.choices()));
    }
    ArrayNode rules = root.putArray("rulesOfThumb");
    for (Choice choice : comparison.rulesOfThumb()) {
      ObjectNode node = rules.addObject().put("rule", ChoiceWords.name(choice));
      RuleOfThumb rule = choice.rule();
      if (rule != null) {
        node.put("ruleOfThumb", rule.word());
      }
      choice(node, choice, chart, practice);
    }
    OneVisitFewer fewer = comparison.oneVisitFewer();
    if (fewer != null) {
      ObjectNode node = root.putObject("oneVisitFewer");
      node.setAll(Json.tree(JsonLayout.text(PlanWriter.oneVisitFewer(fewer))));
      texts(node, "needs", ReasonWords.needs(fewer, practice));
    }
    root.put("cutShort", comparison.cutShort());
    texts(root, "wishes", WishWords.of(comparison, chart.numbering()));
    texts(root, "notes", ChoiceWords.notes(comparison, practice));
    return Json.write(root);
  }

  private static void conditions(ObjectNode node, WhatIf whatIf) {
    node.put("words", ChoiceWords.conditions(whatIf));
    if (whatIf.longestMinutes() != null) {
      node.put("longestMinutes", whatIf.longestMinutes());
    }
    texts(node, "withoutInserts", whatIf.withoutInserts());
    if (whatIf.agentFirst() != null) {
      node.put("agentFirst", whatIf.agentFirst());
    }
    if (whatIf.certainty() != null) {
      node.put("certainty", whatIf.certainty());
    }
    node.put("grossFirst", whatIf.grossFirst());
    node.put("oneDay", whatIf.oneDay());
    if (whatIf.trayHolds() != null) {
      node.put("trayHolds", whatIf.trayHolds());
    }
    if (whatIf.frontApart()) {
      node.put("frontApart", true);
    }
    if (whatIf.needleAverse()) {
      node.put("needleAverse", true);
    }
  }

  private static void choice(ObjectNode node, Choice choice, Chart chart, Practice practice) {
    node.put("visits", choice.visits());
    node.put("feasible", choice.feasible());
    node.put("unbeaten", choice.unbeaten());
    figures(node, choice.figures());
    texts(node, "obstacles", ChoiceWords.obstacles(choice, chart, practice));
    texts(node, "hints", ChoiceWords.hints(choice));
    Course course = choice.course();
    if (course != null) {
      node.set(
          "plan",
          Json.tree(PlanWriter.write(course, chart.numbering(), PlanFileWords.of(practice))));
    }
  }

  private static void figures(ObjectNode node, @Nullable CourseFigures figures) {
    if (figures == null) {
      return;
    }
    node.put("chairMinutes", Json.round(figures.chairSeconds() / 60.0, 2));
    node.put("bookedMinutes", figures.bookedMinutes());
    node.put("longestMinutes", figures.longestMinutes());
    node.put("tipChanges", figures.tipChanges());
    node.put("injections", figures.injections());
    node.put("cartridges", figures.cartridges());
    node.put("largestDoseShare", Json.round(figures.largestDoseShare(), 4));
    node.put("overrunRisk", Json.round(figures.overrunRisk(), 4));
    node.put("spanDays", figures.spanDays());
    node.put("costSeconds", figures.costSeconds());
    node.put("lowerBoundSeconds", figures.lowerBoundSeconds());
    node.put("provenBest", figures.provenBest());
  }

  private static void texts(ObjectNode node, String name, List<String> texts) {
    ArrayNode array = node.putArray(name);
    texts.forEach(array::add);
  }
}
