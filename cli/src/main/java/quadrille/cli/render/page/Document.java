package quadrille.cli.render.page;

import java.util.List;

/**
 * The whole document.
 *
 * @param language of everything but the words for the patient
 * @param pages the words of the pages to show
 */
public record Document(
    String language,
    String title,
    List<String> pages,
    ChairsidePage chairside,
    DeskPage desk,
    PatientPage patient) {}
