package quadrille.cli.serve;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import quadrille.cli.render.Words;
import quadrille.cli.serve.PracticeFolder.Mouth;
import quadrille.document.InvalidDocumentException;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.ChartDraft;
import quadrille.facts.chart.Site;

/** The first page: the practice's mouths. */
final class HomeRoom {

  private final PracticeFolder folder;

  HomeRoom(PracticeFolder folder) {
    this.folder = folder;
  }

  Reply show() throws IOException {
    List<HomePage.Line> drafts = new ArrayList<>();
    List<HomePage.Line> charts = new ArrayList<>();
    for (Mouth mouth : folder.mouths()) {
      if (mouth.draft()) {
        drafts.add(draft(mouth));
      }
      if (mouth.chart()) {
        charts.add(chart(mouth));
      }
    }
    return Reply.html(Views.view("home", new HomePage(folder.demo(), drafts, charts)));
  }

  private HomePage.Line draft(Mouth mouth) throws IOException {
    try {
      String text = folder.draft(mouth).map(PracticeFolder.Text::text).orElse("");
      String name =
          text.lines()
              .filter(line -> line.startsWith("case "))
              .map(line -> line.substring(5).strip())
              .filter(line -> !line.equals("?"))
              .findFirst()
              .orElse("not named yet");
      int whole = ChartDraft.of("draft", text).teeth().size();
      return new HomePage.Line(mouth.id(), name, "", teeth(whole) + " whole so far", false);
    } catch (InvalidDocumentException noText) {
      return new HomePage.Line(mouth.id(), mouth.key(), "", "cannot be read as text", true);
    }
  }

  private static String teeth(int number) {
    return number == 1 ? "1 tooth" : number + " teeth";
  }

  private HomePage.Line chart(Mouth mouth) throws IOException {
    try {
      Chart chart = folder.read(mouth);
      List<Site> sites = chart.worked().stream().flatMap(tooth -> tooth.sites().stream()).toList();
      long pockets =
          sites.stream().filter(site -> site.depthMm() != null && site.depthMm() >= 5).count();
      long unprobed = sites.stream().filter(site -> site.depthMm() == null).count();
      return new HomePage.Line(
          mouth.id(),
          chart.caseName(),
          chart.charted() == null ? "" : chart.charted().toString(),
          teeth(chart.worked().size())
              + ", "
              + Words.count(Math.toIntExact(pockets), "site")
              + " of 5 mm or more"
              + (unprobed == 0 ? "" : ", " + unprobed + " not probed"),
          false);
    } catch (InvalidDocumentException invalid) {
      return new HomePage.Line(mouth.id(), mouth.key(), "", "is no valid chart", true);
    }
  }
}
