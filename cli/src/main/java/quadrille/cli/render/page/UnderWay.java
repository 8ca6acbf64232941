package quadrille.cli.render.page;

import org.jspecify.annotations.Nullable;

/**
 * The document of a course under way.
 *
 * @param language of everything but the words for the patient
 * @param progress null where it is not asked for
 * @param patient null where it is not asked for
 */
public record UnderWay(
    String language,
    String title,
    @Nullable ProgressPage progress,
    @Nullable PatientPage patient) {}
