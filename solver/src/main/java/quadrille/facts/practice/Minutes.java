package quadrille.facts.practice;

import java.util.List;
import java.util.Map;
import quadrille.document.Withers;
import quadrille.facts.chart.Deposit;
import quadrille.facts.chart.Jaw;

/**
 * The practice's times.
 *
 * @param fineBands fine pass, seconds a site by depth, ascending, the first from 0 mm
 * @param rootAreaMm2 root surface area by jaw, eight values from the midline
 * @param furcationFactor factor on the fine pass by furcation grade 0 to 3
 * @param provisionalDepthMm the depth taken for a site that the deposit kept from being probed
 * @param grossSeconds gross pass, seconds a tooth (both aspects) by deposit grade, before the crown
 *     factor
 * @param crownFactor by position from the midline, eight values
 * @param finishingSeconds finishing pass, seconds a tooth
 * @param implantCareSeconds implant care, seconds an implant
 * @param tipChangeSeconds between two steps with different inserts
 * @param repositionAreaSeconds between two steps in different areas
 * @param repositionAspectSeconds between two aspects of one area
 * @param chartToothSeconds charting a tooth anew, both aspects, where a site of it was not probed
 * @param handFactor factor on all working seconds where the work is done by hand
 * @param lookMinutes a look at the bleeding of the first teeth, where an alert asks for one
 * @param setUpMinutes before a visit's first injection or step
 * @param closeMinutes after a visit's last step
 * @param spreadSigma sigma of the lognormal working part of a visit
 */
@Withers
public record Minutes(
    List<FineBand> fineBands,
    Map<Jaw, List<Figure>> rootAreaMm2,
    List<Figure> furcationFactor,
    Figure provisionalDepthMm,
    Map<Deposit, Figure> grossSeconds,
    List<Figure> crownFactor,
    Figure finishingSeconds,
    Figure implantCareSeconds,
    Figure tipChangeSeconds,
    Figure repositionAreaSeconds,
    Figure repositionAspectSeconds,
    Figure chartToothSeconds,
    Figure handFactor,
    Figure lookMinutes,
    Figure setUpMinutes,
    Figure closeMinutes,
    Figure spreadSigma)
    implements MinutesBuilder.With {

  /** Seconds of the fine pass for one site at or above a depth. */
  public record FineBand(int fromMm, Figure seconds) {}
}
