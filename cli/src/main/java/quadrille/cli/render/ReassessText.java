package quadrille.cli.render;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Reassessment;
import quadrille.facts.chart.Reassessment.Figures;
import quadrille.facts.practice.Appointments;
import quadrille.facts.practice.Practice;
import quadrille.treatment.record.VisitRecordReader;

/** Two charts of one mouth side by side, as text. */
public final class ReassessText {

  /** What the chart of residual sites is, and is not. */
  public static final String RETREATMENT =
      "a chart to plan a retreatment from, and no record of the mouth; sites that have reached the"
          + " endpoint are written as at most 3 mm, not bleeding.";

  /** Wennstrom et al. 2005, J Clin Periodontol 32:851; read. */
  static final String PUBLISHED =
      "Published, for context: 58 % of pockets closed at 3 months after full-mouth ultrasonic"
          + " debridement, 66 % after hand instruments by quadrant (41 patients; Wennstrom et al."
          + " 2005, J Clin Periodontol 32:851). Other patients, other pockets: no target.";

  private ReassessText() {}

  /** Renders the comparison. */
  public static String of(
      Chart before, Chart after, Practice practice, Reassessment reassessment, boolean styled) {
    Page page = new Page(styled);
    page.heading("Reassessment of " + after.caseName());
    page.paragraph(
        "Before: "
            + (before.charted() == null ? "day not charted" : before.charted())
            + ". After: "
            + (after.charted() == null ? "day not charted" : after.charted())
            + ". A pocket is a site of 5 mm or more; closed is 4 mm or less without bleeding (EFP S3"
            + " guideline, Sanz et al. 2020).");
    reassessment.doubts().forEach(page::paragraph);
    page.blank();
    row(page, "", "Sites", "Pockets", "Closed", "Share", "Open", "New", "Change", "In pockets");
    for (Reassessment.OfArea one : reassessment.areas()) {
      figures(page, one.area().toString(), one.figures());
    }
    figures(page, "All", reassessment.all());
    page.blank();
    notes(after, reassessment).forEach(page::paragraph);
    List<String> open = residual(after, reassessment);
    if (!open.isEmpty()) {
      page.heading("Residual: 5 mm or more, or 4 mm and bleeding");
      open.forEach(page::item);
    }
    page.heading("Next, for the clinician to decide");
    next(practice, reassessment).forEach(page::paragraph);
    return page.text();
  }

  /** What the figures mean, what they leave out, and what is published. */
  public static List<String> notes(Chart after, Reassessment reassessment) {
    List<String> notes = new ArrayList<>();
    notes.add(
        "Sites: probed on both days. Pockets: before. Open: 5 mm or more now, new ones included."
            + " Change: mean, mm; less is shallower.");
    Figures all = reassessment.all();
    notes.add(
        "Bleeding: " + all.bleedingBefore() + " sites before, " + all.bleedingAfter() + " now.");
    if (reassessment.notCompared() > 0) {
      notes.add(
          Words.count(reassessment.notCompared(), "site")
              + " could not be compared, as not probed on both days.");
    }
    if (!reassessment.teethGone().isEmpty()) {
      notes.add(
          "No longer there, and in no figure: "
              + Words.teeth(reassessment.teethGone(), after.numbering())
              + ".");
    }
    if (!reassessment.teethNew().isEmpty()) {
      notes.add(
          "Not charted before, and in no figure: "
              + Words.teeth(reassessment.teethNew(), after.numbering())
              + ".");
    }
    notes.add(PUBLISHED);
    return notes;
  }

  /** The sites at which the endpoint has not been reached, a line each. */
  public static List<String> residual(Chart after, Reassessment reassessment) {
    return reassessment.residual().stream()
        .map(
            site ->
                after.numbering().name(site.tooth())
                    + " "
                    + site.aspect().word()
                    + " "
                    + VisitRecordReader.sites().get(site.site())
                    + ": "
                    + (site.beforeMm() == null ? "not probed" : site.beforeMm() + " mm")
                    + ", now "
                    + site.afterMm()
                    + " mm"
                    + (site.bleeding() ? ", bleeding" : ""))
        .toList();
  }

  /** A prompt, never a decision. */
  public static List<String> next(Practice practice, Reassessment reassessment) {
    Appointments appointments = practice.appointments();
    return List.of(
        reassessment.residual().isEmpty()
            ? "No residual site was probed. Maintenance is usual every 3 to at most 12 months"
                + " (national adoption of EFP S3); which interval is for the clinician."
            : Words.count(reassessment.residual().size(), "residual site")
                + ": retreat, go another way, or watch? -o FILE writes a chart of them that plan"
                + " takes. After a retreatment the practice re-evaluates in "
                + Words.range(
                    appointments.reevaluateFromWeeks().asInt(),
                    appointments.reevaluateToWeeks().asInt())
                + " weeks.",
        "It clears no patient.");
  }

  private static void figures(Page page, String name, Figures figures) {
    row(
        page,
        name,
        Integer.toString(figures.sites()),
        Integer.toString(figures.pocketsBefore()),
        Integer.toString(figures.closed()),
        share(figures),
        Integer.toString(figures.pocketsAfter()),
        Integer.toString(figures.newPockets()),
        change(figures.meanChange()),
        change(figures.meanPocketChange()));
  }

  /** The share of pockets that closed. */
  public static String share(Figures figures) {
    return figures.closure() == null ? "-" : Words.percent(figures.closure());
  }

  /** A mean change of depth, mm. */
  public static String change(@Nullable Double change) {
    return change == null ? "-" : String.format(Locale.ROOT, "%+.2f", change);
  }

  private static void row(Page page, String name, String... cells) {
    List<Integer> widths = List.of(6, 8, 7, 7, 5, 4, 7, 11);
    StringBuilder line = new StringBuilder(Page.pad(name, 22));
    for (int i = 0; i < cells.length; i++) {
      line.append(Page.padLeft(cells[i].replace('\u00a0', ' '), widths.get(i)));
    }
    page.line(line.toString());
  }
}
