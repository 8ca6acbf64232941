package quadrille.cli.render.page;

import java.util.List;
import quadrille.cli.render.picture.DepthRing;

/**
 * A mouth before treatment and after it.
 *
 * @param language of the document
 * @param clinician whether the clinician's page is drawn
 * @param patient whether the patient's is
 * @param to what is said to the patient
 * @param doubts why these may not be what they are taken for; before any figure
 * @param figures a row for each area, then all
 * @param notes what the figures leave out
 * @param residual sites at which the endpoint has not been reached
 * @param next for the clinician to decide
 * @param sentences to the patient
 */
public record ReassessedPage(
    String language,
    String title,
    boolean clinician,
    boolean patient,
    Language to,
    Heading heading,
    List<String> doubts,
    DepthRing before,
    DepthRing after,
    List<Figures> figures,
    List<String> notes,
    List<String> residual,
    List<String> next,
    List<String> sentences,
    DepthRing patientBefore,
    DepthRing patientAfter) {

  /** One area's. */
  public record Figures(
      String area,
      int sites,
      int pockets,
      int closed,
      String share,
      int open,
      int newPockets,
      String change,
      String inPockets) {}

  /** A text to the patient. */
  public String text(String key) {
    return to.text(key);
  }
}
