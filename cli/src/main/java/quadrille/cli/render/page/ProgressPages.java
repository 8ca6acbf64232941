package quadrille.cli.render.page;

import java.util.Set;
import quadrille.treatment.record.CourseLog;

/**
 * A course under way as one self-contained HTML document; see {@link PlanPages} for what that
 * means.
 */
public final class ProgressPages {

  private ProgressPages() {}

  /**
   * The document.
   *
   * @param pages which pages; they come in the order of {@link ProgressKind}
   * @param language what is said to the patient; the other page is English
   * @throws IllegalArgumentException where no page is asked for
   */
  public static String of(CourseLog log, Set<ProgressKind> pages, Language language) {
    if (pages.isEmpty()) {
      throw new IllegalArgumentException("The pages must be one or more.");
    }
    boolean patientOnly = !pages.contains(ProgressKind.PROGRESS);
    return Templates.render(
        "page/underWay.jte",
        new UnderWay(
            patientOnly ? language.code() : "en",
            patientOnly
                ? language.text("title")
                : "Course so far of " + log.planned().course().caseName(),
            patientOnly ? null : ProgressPage.of(log),
            pages.contains(ProgressKind.PATIENT) ? PatientPage.of(log, language) : null));
  }
}
