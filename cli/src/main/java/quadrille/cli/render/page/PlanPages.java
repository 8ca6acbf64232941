package quadrille.cli.render.page;

import java.util.Map;
import java.util.Set;
import java.util.SortedSet;
import java.util.TreeSet;
import quadrille.facts.chart.Chart;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.Course;
import quadrille.treatment.record.Event;

/**
 * A course as one self-contained HTML document: no network, no script, made to be printed. The same
 * course gives the same document, byte for byte. Every text that comes from a file is escaped where
 * it is put in, and set apart so that its writing direction stays its own.
 */
public final class PlanPages {

  private PlanPages() {}

  /**
   * The document.
   *
   * @param pages which pages; they come in the order of {@link PageKind}
   * @param language what is said to the patient; the other pages are English
   * @throws IllegalArgumentException where no page is asked for
   */
  public static String of(
      Chart chart, Practice practice, Course course, Set<PageKind> pages, Language language) {
    return of(chart, practice, course, Map.of(), pages, language);
  }

  /**
   * The document of a course that carries on another.
   *
   * @param booked what is promised of its visits, by their number
   */
  public static String of(
      Chart chart,
      Practice practice,
      Course course,
      Map<Integer, Event.Appointment> booked,
      Set<PageKind> pages,
      Language language) {
    if (pages.isEmpty()) {
      throw new IllegalArgumentException("The pages must be one or more.");
    }
    SortedSet<PageKind> sorted = new TreeSet<>(pages);
    boolean patientOnly = sorted.first() == PageKind.PATIENT;
    Document document =
        new Document(
            patientOnly ? language.code() : "en",
            patientOnly ? language.text("title") : "Course for " + course.caseName(),
            sorted.stream().map(PageKind::word).toList(),
            ChairsidePage.of(course, chart, practice),
            DeskPage.of(course, chart, practice, booked, language),
            PatientPage.of(course, practice, booked, language));
    return Templates.render("page/document.jte", document);
  }
}
