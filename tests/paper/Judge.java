import java.io.FileInputStream;
import java.util.logging.Level;
import java.util.logging.Logger;
import org.verapdf.gf.foundry.VeraGreenfieldFoundryProvider;
import org.verapdf.pdfa.Foundries;
import org.verapdf.pdfa.PDFAParser;
import org.verapdf.pdfa.PDFAValidator;
import org.verapdf.pdfa.flavours.PDFAFlavour;
import org.verapdf.pdfa.results.TestAssertion;
import org.verapdf.pdfa.results.ValidationResult;

/** Holds files against a standard each: pairs of a standard (2a, ua1) and a file; a line for each, and for what fails. */
public class Judge {
    public static void main(String[] given) throws Exception {
        Logger.getLogger("").setLevel(Level.OFF);
        VeraGreenfieldFoundryProvider.initialise();
        for (int at = 0; at + 1 < given.length; at += 2) {
            PDFAFlavour standard = PDFAFlavour.fromString(given[at]);
            try (PDFAParser file = Foundries.defaultInstance().createParser(new FileInputStream(given[at + 1]), standard)) {
                PDFAValidator judge = Foundries.defaultInstance().createValidator(standard, false);
                ValidationResult found = judge.validate(file);
                System.out.println((found.isCompliant() ? "KEEPS " : "BREAKS ") + given[at] + " " + given[at + 1]);
                for (TestAssertion one : found.getTestAssertions())
                    System.out.println("  " + one.getRuleId().getClause() + ": " + one.getMessage());
            }
        }
    }
}
