package quadrille.facts.practice;

import java.util.Set;
import quadrille.facts.chart.Deposit;
import quadrille.facts.chart.Feature;

/**
 * Which natural teeth go into which pass. An implant gets implant care where it carries a deposit,
 * bleeds or has a site at or above {@code fineDepthMm}.
 *
 * @param grossFrom the deposit grade from which a tooth gets a gross pass
 * @param grossFeatures features that ask for a gross pass whatever the grade
 * @param fineFrom the deposit grade from which a tooth gets a fine pass
 * @param fineDepthMm the depth from which a tooth gets a fine pass
 * @param finishingDepthMm the depth from which a tooth gets a finishing pass
 * @param finishingFeatures features that ask for a finishing pass
 * @param chartFirstShare where more than this share of the sites of natural teeth is not probed,
 *     the mouth is made chartable first
 */
public record PassRules(
    Deposit grossFrom,
    Set<Feature> grossFeatures,
    Deposit fineFrom,
    Figure fineDepthMm,
    Figure finishingDepthMm,
    Set<Feature> finishingFeatures,
    Figure chartFirstShare,
    String source) {}
