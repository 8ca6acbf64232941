package quadrille.cli;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import quadrille.cli.render.CompareJson;
import quadrille.cli.render.CompareText;
import quadrille.cli.render.page.ComparePages;
import quadrille.document.InvalidDocumentException;
import quadrille.facts.chart.Chart;
import quadrille.facts.practice.FormerNames;
import quadrille.facts.practice.Practice;
import quadrille.plan.planning.VisitRange;
import quadrille.plan.scenario.Comparer;
import quadrille.plan.scenario.Comparison;
import quadrille.plan.scenario.WhatIf;
import quadrille.plan.work.UnworkableException;

/** {@code quadrille compare}: the same mouth at several numbers of visits. */
@Command(
    name = "compare",
    customSynopsis = "quadrille compare CHART [OPTION ...]",
    description = {
      "Compare each number of visits, and the rules of thumb.",
      "",
      "What nothing beats in chair time, visits, longest visit and dose is marked.",
      "The what-if options combine to one more table beside the practice as it is;",
      "--settings changes the usual settings one at a time, in a table of them all.",
      "Where nothing keeps every hard rule, the table says why, with status 1.",
      "",
      "With --format html, a page with pictures to look at and print.",
      "",
      "Ctrl-C, like a deadline, ends the search and keeps the best so far; the",
      "answer then says so. A second Ctrl-C ends at once."
    })
final class CompareCommand extends AnswerCommand {

  @Mixin private ChartFile chartFile = new ChartFile();

  @Mixin private PracticeOption practiceOption = new PracticeOption();

  @Option(
      names = "--visits",
      order = 10,
      paramLabel = "A-B",
      description = "Each number of visits from A to B (without it, 1-6).")
  private VisitRange visits = VisitRange.USUAL;

  @Mixin private SearchOptions search = new SearchOptions();

  @Mixin private WishOption wishes = new WishOption();

  @Option(
      names = "--longest",
      order = 20,
      paramLabel = "MIN",
      description = "What if the practice booked at most so many minutes?")
  @Nullable
  private Integer longest;

  @Option(
      names = "--without-insert",
      order = 21,
      paramLabel = "NAME",
      description = "What if this insert were missing? May be repeated.")
  private List<String> withoutInserts = List.of();

  @Option(
      names = "--agent",
      order = 22,
      paramLabel = "NAME",
      description = "What if this agent were tried first?")
  @Nullable
  private String agent;

  @Option(
      names = "--certainty",
      order = 23,
      paramLabel = "P",
      description = "What if a share of P of all visits, such as 0.9, were to end in time?")
  @Nullable
  private Double certainty;

  @Option(
      names = "--gross-first",
      order = 24,
      description = "What if the gross pass of the whole mouth came before any fine pass?")
  private boolean grossFirst;

  @Option(names = "--one-day", order = 25, description = "What if all visits were within 24 hours?")
  private boolean oneDay;

  @Option(
      names = "--settings",
      order = 26,
      description =
          "What if, one at a time: longest visit 60, 75, 90, 105 or 120 min, four more inserts on"
              + " the tray, no front across the midline, gross pass first, 90 of 100 visits in"
              + " time, a needle-averse patient?")
  private boolean settings;

  CompareCommand(Streams streams) {
    super(streams);
  }

  @Override
  boolean drawsPages() {
    return true;
  }

  @Override
  int run() throws InvalidDocumentException, StopException {
    search.deadline().check();
    checkOutput(chartFile.name(), practiceOption.name());
    Gathering gathering = new Gathering();
    Gathering.Read<Chart> chartRead = gathering.read(() -> chartFile.read(documents()));
    Gathering.Read<Practice> practiceRead = gathering.read(() -> practiceOption.read(documents()));
    gathering.check();
    Practice practice = practiceRead.get();
    Chart chart = wishes.added(chartRead.get(), practice);
    List<String> inserts = withoutInserts.stream().map(FormerNames::insert).toList();
    WhatIf whatIf = new WhatIf(longest, inserts, agent, certainty, grossFirst, oneDay);
    List<String> faults = whatIf.faults(practice);
    if (!faults.isEmpty()) {
      throw StopException.usage(String.join("\n", faults));
    }

    List<WhatIf> whatIfs = new ArrayList<>(List.of(whatIf));
    if (settings) {
      whatIfs.addAll(WhatIf.settings(chart, practice));
    }
    Comparison comparison = compare(chart, practice, whatIfs);
    answer(
        switch (format(Format.TEXT)) {
          case JSON -> CompareJson.of(chart, practice, comparison);
          case HTML -> ComparePages.of(chart, practice, comparison);
          default -> CompareText.of(chart, practice, comparison, styled());
        });
    return comparison.feasible() || comparison.nothingDue() ? Status.DONE : Status.REFUSED;
  }

  private Comparison compare(Chart chart, Practice practice, List<WhatIf> whatIfs)
      throws StopException {
    int threads = Runtime.getRuntime().availableProcessors();
    try (Seeking seeking = new Seeking(streams(), search.deadline())) {
      return new Comparer(search.effort(), threads, seeking.stop(), seeking.progress())
          .compare(chart, practice, visits, whatIfs);
    } catch (UnworkableException unworkable) {
      throw StopException.refused(Unworkables.message(unworkable, chart));
    }
  }
}
