package quadrille.cli.serve;

import java.util.List;

/** Why a page cannot be shown. */
public record MessagePage(boolean demo, String title, List<String> lines) {}
