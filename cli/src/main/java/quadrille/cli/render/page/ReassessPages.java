package quadrille.cli.render.page;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import quadrille.cli.render.ReassessText;
import quadrille.cli.render.picture.DepthRing;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Reassessment;
import quadrille.facts.practice.Practice;

/**
 * A mouth before treatment and after it as one self-contained HTML document; see {@link PlanPages}
 * for what that means.
 */
public final class ReassessPages {

  private ReassessPages() {}

  /**
   * The document.
   *
   * @param pages which pages; nobody hands a patient figures that are doubted, so that their page
   *     is drawn only where nothing is
   * @throws IllegalArgumentException where no page is left to draw
   */
  public static String of(
      Chart before,
      Chart after,
      Practice practice,
      Reassessment reassessment,
      Set<ReassessKind> pages,
      Language language) {
    boolean clinician = pages.contains(ReassessKind.CLINICIAN);
    boolean patient = pages.contains(ReassessKind.PATIENT) && reassessment.doubts().isEmpty();
    if (!clinician && !patient) {
      throw new IllegalArgumentException("The pages must be one or more.");
    }
    String was = day(before);
    String is = day(after);
    return Templates.render(
        "page/reassessed.jte",
        new ReassessedPage(
            clinician ? "en" : language.code(),
            clinician ? "Reassessment of " + after.caseName() : language.text("reassess.title"),
            clinician,
            patient,
            language,
            Heading.of(after.caseName(), after, practice),
            reassessment.doubts(),
            DepthRing.of("before", "Before" + was, open(before), before),
            DepthRing.of("after", "Now" + is, open(after), after),
            figures(reassessment),
            ReassessText.notes(after, reassessment),
            ReassessText.residual(after, reassessment),
            ReassessText.next(practice, reassessment),
            sentences(reassessment, language),
            ring("patient-before", language.text("reassess.before") + was, before, language),
            ring("patient-after", language.text("reassess.after") + is, after, language)));
  }

  private static String day(Chart chart) {
    return chart.charted() == null ? "" : ", " + chart.charted();
  }

  private static DepthRing ring(String key, String title, Chart chart, Language language) {
    return DepthRing.of(key, title, language.text("reassess.ring", teeth(chart)), chart);
  }

  private static String open(Chart chart) {
    return "Teeth with a site of 5 mm or more, or of 4 mm that bleeds: " + teeth(chart) + ".";
  }

  private static long teeth(Chart chart) {
    return chart.worked().stream()
        .filter(tooth -> tooth.sites().stream().anyMatch(Reassessment::residual))
        .count();
  }

  private static List<ReassessedPage.Figures> figures(Reassessment reassessment) {
    return Stream.concat(
            reassessment.areas().stream().map(one -> figures(one.area().toString(), one.figures())),
            Stream.of(figures("All", reassessment.all())))
        .toList();
  }

  private static ReassessedPage.Figures figures(String area, Reassessment.Figures figures) {
    return new ReassessedPage.Figures(
        area,
        figures.sites(),
        figures.pocketsBefore(),
        figures.closed(),
        ReassessText.share(figures),
        figures.pocketsAfter(),
        figures.newPockets(),
        ReassessText.change(figures.meanChange()),
        ReassessText.change(figures.meanPocketChange()));
  }

  private static List<String> sentences(Reassessment reassessment, Language language) {
    Reassessment.Figures all = reassessment.all();
    List<String> sentences = new ArrayList<>();
    sentences.add(language.text("reassess.deep", all.pocketsBefore(), all.closed()));
    sentences.add(language.text("reassess.now", all.pocketsAfter()));
    sentences.add(language.text("reassess.bleeding", all.bleedingBefore(), all.bleedingAfter()));
    sentences.add(
        language.text(
            reassessment.residual().isEmpty() ? "reassess.none" : "reassess.open",
            reassessment.residual().size()));
    sentences.add(language.text("reassess.next"));
    return sentences;
  }
}
