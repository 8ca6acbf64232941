package quadrille.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import quadrille.cli.render.KitJson;
import quadrille.cli.render.KitText;
import quadrille.cli.render.KitVisit;
import quadrille.document.InvalidDocumentException;
import quadrille.facts.chart.Numbering;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeReader;
import quadrille.plan.course.Course;
import quadrille.plan.course.Kit;
import quadrille.plan.course.PlanFile;
import quadrille.plan.course.PlanReader;
import quadrille.plan.course.Visit;

/** {@code quadrille kit}: what to lay out for visits. */
@Command(
    name = "kit",
    customSynopsis = "quadrille kit PLAN ... [OPTION ...]",
    description = {
      "List what to lay out for the visits of one or more plans.",
      "",
      "Inserts, sleeves, cartridges and sterile sets: first visit by visit, then",
      "together. For one day, name the plans and with --visit which visit of each.",
      "Plan files are taken at their word here; audit checks them."
    })
final class KitCommand extends AnswerCommand {

  @Parameters(paramLabel = "PLAN", arity = "1..*", description = "Plan files; - is standard input.")
  private List<String> planFiles = List.of();

  @Option(
      names = "--visit",
      order = 10,
      split = ",",
      hideParamSyntax = true,
      paramLabel = "N[,N...]",
      description = "Only visit N: one number for every plan, or one for each, in their order.")
  private List<Integer> numbers = List.of();

  @Option(
      names = "--practice",
      order = 11,
      paramLabel = "FILE",
      description =
          "A practice file: also say how many sterile inserts it has; - is standard input.")
  @Nullable
  private String practiceFile;

  KitCommand(Streams streams) {
    super(streams);
  }

  @Override
  int run() throws InvalidDocumentException, StopException {
    if (numbers.size() > 1 && numbers.size() != planFiles.size()) {
      throw StopException.usage(
          "--visit: names "
              + numbers.size()
              + " visits for "
              + planFiles.size()
              + (planFiles.size() == 1 ? " plan" : " plans")
              + "; give one number, or one for each plan.");
    }
    List<String> inputs = new ArrayList<>(planFiles);
    if (practiceFile != null) {
      inputs.add(practiceFile);
    }
    checkOutput(inputs.toArray(String[]::new));
    Gathering gathering = new Gathering();
    List<Gathering.Read<PlanFile>> plans = new ArrayList<>();
    for (String file : planFiles) {
      plans.add(
          gathering.read(() -> PlanReader.read(Documents.name(file), documents().read(file))));
    }
    String owned = practiceFile;
    Gathering.Read<Practice> practice =
        gathering.read(
            () ->
                owned == null
                    ? PracticeReader.defaults()
                    : PracticeReader.read(Documents.name(owned), documents().read(owned)));
    gathering.check();

    List<KitVisit> visits = new ArrayList<>();
    for (int i = 0; i < plans.size(); i++) {
      Course course = plans.get(i).get().course();
      // A plan of version 1 has ISO 3950 codes whatever the chart.
      @Nullable Numbering stated = plans.get(i).get().numbering();
      Numbering numbering = stated == null ? Numbering.ISO3950 : stated;
      boolean told = stated != Numbering.ISO3950;
      for (Visit visit : chosen(course, planFiles.get(i), i)) {
        visits.add(new KitVisit(course.caseName(), visit, numbering, told));
        for (String insert : Kit.missingFromTray(visit)) {
          message(
              String.format(
                  Locale.ROOT,
                  "%s: visit %d uses %s, which its tray lacks; it is listed here.",
                  Documents.name(planFiles.get(i)),
                  visit.number(),
                  insert));
        }
      }
    }
    Practice stock = owned == null ? null : practice.get();
    answer(
        format(Format.TEXT) == Format.JSON
            ? KitJson.of(visits, stock)
            : KitText.of(visits, stock, styled()));
    return Status.DONE;
  }

  /** The visits of one plan that are asked for. */
  private List<Visit> chosen(Course course, String file, int place) throws StopException {
    if (numbers.isEmpty()) {
      return course.visits();
    }
    int number = numbers.size() == 1 ? numbers.get(0) : numbers.get(place);
    List<Visit> chosen =
        course.visits().stream().filter(visit -> visit.number() == number).toList();
    if (chosen.isEmpty()) {
      throw StopException.usage(
          "--visit: "
              + Documents.name(file)
              + " has no visit "
              + number
              + "; it has "
              + (course.visits().isEmpty()
                  ? "none"
                  : course.visits().stream()
                      .map(visit -> String.valueOf(visit.number()))
                      .collect(Collectors.joining(", ")))
              + ".");
    }
    return chosen;
  }
}
