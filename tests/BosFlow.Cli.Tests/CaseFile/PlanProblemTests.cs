using BosFlow.Cli.CaseFile;
using BosFlow.Cli.CaseFile.Keys;
using BosFlow.Cli.CaseFile.Sections;

namespace BosFlow.Cli.Tests.CaseFile;

/// <summary>Mistakes in the sections that planning needs, in the file and on the command line; the whole sentences are frozen here.</summary>
public sealed class PlanProblemTests
{
    private const string Rig = "[rig]\nlens_to_flow_mm = 1200\nflow_to_background_mm = 800\nfocal_length_mm = 16\npixel_pitch_um = 1.55\nf_number = 2.8\n[camera]\npicture_width_px = 4056\npicture_height_px = 3040\n";

    // Each text follows the nine lines of a rig that can be planned.
    public static TheoryData<string, string> Mistakes => new()
    {
        { "focus_mm = 12\n", "case.toml, line 10: camera.focus_mm = 12 is not beyond the focal length, 16 mm; no lens can focus there, so check both." },
        { "focus_mm = -1\n", "case.toml, line 10: camera.focus_mm = -1 is out of range; give a number greater than 0 and at most 10000000 mm." },
        { "exposure_s = 0.0005\n", "case.toml, line 10: camera.exposure_s is not known; this is given in ms, not in s; write exposure_ms = 0.5." },
        { "vibration_urad = 50\n", "case.toml, line 10: camera.vibration_urad is not known; this is given in mrad, not in µrad; write vibration_mrad = 0.05." },
        { "vibration_hz = 120\n", "case.toml, line 10: camera.vibration_hz is the frequency of vibration_mrad, which is not given; give that too, or remove the frequency." },
        { "[expected]\nkind = \"jett\"\n", "case.toml, line 11: expected.kind = \"jett\" is not known; did you mean \"jet\"? Allowed: \"jet\", \"plume\", \"plate\", \"shock\", \"lens\", \"gas-cell\" or \"deflection\"." },
        { "[expected]\nhalf_width_mm = 8\n", "case.toml, line 11: expected.half_width_mm describes a flow whose kind is not given; set kind = \"plume\", or remove the key." },
        { "[expected]\nkind = \"plume\"\ntemperature_c = 600\n", "case.toml, line 11: expected.kind = \"plume\" needs half_width_mm; write it under [expected], or give --half-width-mm." },
        { "[expected]\nkind = \"plume\"\ntemperature_c = 600\nhalf_width_mm = 8\nmach = 2\n", "case.toml, line 14: expected.mach is for kind = \"shock\", and the kind is \"plume\" (line 11); remove it, or change the kind." },
        { "[expected]\nkind = \"gas-cell\"\ncell_gas = \"heluim\"\npath_length_mm = 100\nlayer_mm = 10\n", "case.toml, line 12: expected.cell_gas = \"heluim\" is not known; did you mean \"helium\"? Allowed: \"air\", \"nitrogen\", \"oxygen\", \"argon\", \"carbon dioxide\", \"helium\", \"water vapour\", \"hydrogen\", \"neon\", \"krypton\", \"xenon\", \"methane\", \"nitric oxide\", \"carbon tetrafluoride\" or \"sulphur hexafluoride\"." },
        { "[expected]\nkind = \"shock\"\nmach = 0.8\nwedge_deg = 10\npath_length_mm = 100\nthickness_mm = 2\n", "case.toml, line 12: expected.mach = 0.8 is out of range; give a number greater than 1 and at most 30." },
        { "[limits]\nf_numbers = [2.8, 2.8]\n", "case.toml, line 11: limits.f_numbers = [2.8, 2.8] holds 2.8 twice; give each number once." },
        { "[limits]\nf_numbers = 2.8\n", "case.toml, line 11: limits.f_numbers = 2.8 is a number; give a list of 1 to 32 different numbers greater than 0 and at most 128, as in [2.8, 4.0, 5.6, 8.0, 11.0]." },
        { "[limits]\nfocal_lengths_mm = []\n", "case.toml, line 11: limits.focal_lengths_mm = [] has 0 entries; give a list of 1 to 32 different numbers greater than 0 and at most 100000 mm, as in [8.0, 12.0, 16.0, 25.0]." },
        { "[limits]\nshortest_flow_to_background_mm = 900\nlongest_flow_to_background_mm = 300\n", "case.toml, line 11: limits.shortest_flow_to_background_mm = 900 is longer than longest_flow_to_background_mm = 300 (line 12); exchange the two." },
        { "[limits]\nlongest_board_distance_mm = 500\nshortest_lens_to_flow_mm = 400\nshortest_flow_to_background_mm = 300\n", "case.toml, line 11: limits.longest_board_distance_mm = 500 leaves no room: the shortest distances on both sides of the flow already add to 700 mm; lengthen it, or shorten these." },
    };

    public static TheoryData<string, string, string> WrongOptions => new()
    {
        { "rig.focal_length_mm", "16mm", "--focal-length-mm 16mm carries its unit, which the name of the option gives; write 16 for mm." },
        { "rig.focal_length_mm", "1.6 cm", "--focal-length-mm 1.6 cm carries its unit, which the name of the option gives; write 16 for mm." },
        { "rig.focal_length_mm", "16 ms", "--focal-length-mm 16 ms is in ms; give a number greater than 0 and at most 100000 mm, without a unit." },
        { "rig.focal_length_mm", "1,6", "--focal-length-mm 1,6 has a comma; decimals stand behind a point, so write 1.6." },
        { "rig.focal_length_mm", "long", "--focal-length-mm long is no number; give a number greater than 0 and at most 100000 mm." },
        { "rig.focal_length_mm", "0", "--focal-length-mm 0 is out of range; give a number greater than 0 and at most 100000 mm." },
        { "rig.focal_length_mm", "2500", "--focal-length-mm: rig.focal_length_mm = 2500 is not less than the distance to the background, 2000 mm; no lens can focus there, so check both." },
        { "rig.flow_to_background_mm", "-5", "--flow-to-background-mm -5 is out of range; give a number greater than 0 and at most 10000000 mm." },
        { "camera.picture_width_px", "4056.5", "--picture-width-px 4056.5 is a number; give a whole number from 64 to 65536 px." },
        { "expected.kind", "plum", "--expected plum is not known; did you mean \"plume\"? Allowed: \"jet\", \"plume\", \"plate\", \"shock\", \"lens\", \"gas-cell\" or \"deflection\"." },
        { "limits.f_numbers", "2.8,", "--f-numbers 2.8, holds an empty place between commas; give a list of 1 to 32 different numbers greater than 0 and at most 128, as in [2.8, 4.0, 5.6, 8.0, 11.0]." },
        { "limits.f_numbers", "2.8,x", "--f-numbers 2.8,x holds x; give a list of 1 to 32 different numbers greater than 0 and at most 128, as in [2.8, 4.0, 5.6, 8.0, 11.0]." },
    };

    [Theory]
    [MemberData(nameof(Mistakes))]
    public void Parse_MistakeInTheFile_TellsLineAndRemedy(string text, string sentence)
    {
        Assert.Equal([sentence], Problems(Rig + text));
    }

    [Theory]
    [MemberData(nameof(WrongOptions))]
    public void Parse_WrongOption_TellsTheOptionAndTheRemedy(string key, string typed, string sentence)
    {
        Assert.Equal([sentence], Problems(Rig, (Key(key), typed)));
    }

    [Fact]
    public void Parse_NothingGiven_TellsAllThatAPlanNeeds()
    {
        IReadOnlyList<string> problems = Assert.Throws<ConfigurationException>(() => PlanCaseReader.Parse(string.Empty, null, [])).Problems;

        Assert.Equal(7, problems.Count);
        Assert.Equal("a plan needs lens_to_flow_mm, which is not given; write it under [rig] of the case file, or give --lens-to-flow-mm.", problems[0]);
        Assert.Equal("a plan needs picture_height_px, which is not given; write it under [camera] of the case file, or give --picture-height-px.", problems[6]);
    }

    [Fact]
    public void Parse_RigWithAMeasuredScale_AsksForTheLens()
    {
        Assert.Equal(
            ["case.toml, line 4: rig.background_mm_per_px is the scale of a rig that stands; a plan reckons it from focal_length_mm and pixel_pitch_um, so give these in its place."],
            Problems("[rig]\nlens_to_flow_mm = 1200\nflow_to_background_mm = 800\nbackground_mm_per_px = 0.31\nf_number = 2.8\n[camera]\npicture_width_px = 4056\npicture_height_px = 3040\n"));
    }

    [Fact]
    public void RunAndPlan_TheSameMistake_IsToldByBoth()
    {
        const string Wrong = "[camera]\nfocus_mm = 12\n[rig]\nlens_to_flow_mm = 1200\nflow_to_background_mm = 800\nfocal_length_mm = 16\npixel_pitch_um = 1.55\n";

        Assert.Equal(
            "case.toml, line 4: camera.focus_mm = 12 is not beyond the focal length, 16 mm; no lens can focus there, so check both.",
            CaseText.Problem(CaseText.Smallest + Wrong));
    }

    private static CaseKey Key(string fullName) => CaseSections.All.SelectMany(section => section.Keys).Single(key => key.FullName == fullName);

    private static IReadOnlyList<string> Problems(string text, params (CaseKey, string)[] options) =>
        Assert.Throws<ConfigurationException>(() => PlanCaseReader.Parse(text, CaseText.Path, options)).Problems;
}
