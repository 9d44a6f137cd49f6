namespace BosFlow.Cli.Tests.CaseFile;

/// <summary>Every mistake in a case file gets its own sentence; the whole sentences are frozen here.</summary>
public sealed class CaseProblemTests
{
    private const string Rig = "[rig]\nlens_to_flow_mm = 1200\nflow_to_background_mm = 800\nbackground_mm_per_px = 0.31\n";

    public static TheoryData<string, string> Mistakes => new()
    {
        // Keys and sections that do not exist. Each text follows the two lines of the smallest case.
        { "[displacement]\nwindwo_px = 32\n", "case.toml, line 4: displacement.windwo_px is not known; did you mean window_px?" },
        { "[displacment]\nwindow_px = 32\n", "case.toml, line 3: there is no section [displacment]; did you mean [displacement]?" },
        { "[gas]\nwindow_px = 32\n", "case.toml, line 4: gas.window_px is not known; move it to [displacement], where it belongs." },
        { "[output]\ncolour = 1\n", "case.toml, line 4: output.colour is not known; [output] has folder, knife_edge_deg." },
        { "[[region]]\n", "case.toml, line 3: [[region]] has double brackets; write [region]." },

        // Units.
        { Rig.Replace("flow_mm = 1200", "flow_m = 1.2", StringComparison.Ordinal) + "lens_to_flow_mm = 1200\n", "case.toml, line 4: rig.lens_to_flow_m is not known; this is given in mm, not in m; write lens_to_flow_mm = 1200." },
        { "[gas]\nambient_temperature_k = 293.15\n", "case.toml, line 4: gas.ambient_temperature_k is not known; this is given in degC, not in K; write ambient_temperature_c = 20." },
        { "[gas]\nambient_pressure_hpa = 998.0\n", "case.toml, line 4: gas.ambient_pressure_hpa is not known; this is given in Pa, not in hPa; write ambient_pressure_pa = 99800." },
        { "[gas]\nwavelength = 532\n", "case.toml, line 4: gas.wavelength is not known; its unit is missing; write wavelength_nm, in nm." },

        // Kinds and ranges.
        { "[displacement]\nwindow_px = \"32\"\n", "case.toml, line 4: displacement.window_px = \"32\" is a text; give a whole even number from 8 to 128 px, without quotation marks." },
        { "[displacement]\nwindow_px = 33 # odd\n", "case.toml, line 4: displacement.window_px = 33 is not allowed; give a whole even number from 8 to 128 px." },
        { "[displacement]\nwindow_px = 32.0\n", "case.toml, line 4: displacement.window_px = 32.0 is a number; give a whole even number from 8 to 128 px." },
        { "[displacement]\ncoarse_window_px = 48\n", "case.toml, line 4: displacement.coarse_window_px = 48 is not allowed; give 32, 64 or 128 px." },
        { "[displacement]\nlowest_correlation = nan\n", "case.toml, line 4: displacement.lowest_correlation = nan is out of range; give a number from 0 to 0.99." },
        { "[displacement]\nquality = \"standart\"\n", "case.toml, line 4: displacement.quality = \"standart\" is not known; did you mean \"standard\"? Allowed: \"fast\", \"standard\" or \"finest\"." },
        { "[displacement]\nreplace_outliers = \"yes\"\n", "case.toml, line 4: displacement.replace_outliers = \"yes\" is a text; give true or false, without quotation marks." },
        { Rig.Replace("1200", "-3", StringComparison.Ordinal), "case.toml, line 4: rig.lens_to_flow_mm = -3 is out of range; give a number greater than 0 and at most 10000000 mm." },
        { "use = \"9-12\"\n", "case.toml, line 3: footage.use = \"9-12\" is no frame range; give start:stop:step in whole numbers, such as \"0:90\" (frames 0 to 89), \"-30:\" (the last thirty), \"::10\" (every tenth) or \"7\" (one frame)." },
        { "use_seconds = [3, 1]\n", "case.toml, line 3: footage.use_seconds = [3, 1] is not a span of time; give [first, last] in seconds, 0 or more, the first before the last." },
        { "[region]\ninterest_px = [0, 0, 10]\n", "case.toml, line 4: region.interest_px = [0, 0, 10] is not four whole numbers; give [x, y, width, height] in whole px, x and y 0 or more, width and height 1 or more." },
        { "[region]\nexclude = [[0,0],[2,0],[2,9]]\n", "case.toml, line 4: region.exclude = [[0,0],[2,0],[2,9]] cannot be read at its polygon 1 (a pair of brackets around each polygon is missing); give a list of polygons, each a list of at least three corners [x, y] in px: [[[0,0], [200,0], [200,90]]]." },
        { "[region]\nflow = [[[0,0],[2,0]]]\n", "case.toml, line 4: region.flow = [[[0,0],[2,0]]] has fewer than three corners in its polygon 1; give a list of polygons, each a list of at least three corners [x, y] in px: [[[0,0], [200,0], [200,90]]]." },
        { "[reference]\nimage = \"\"\n", "case.toml, line 4: reference.image = \"\" is empty; give the path of a picture in \"quotation marks\"." },

        // Contradictions.
        { "video = \"v.mp4\"\n", "case.toml, line 3: footage.video and frames (line 2) exclude each other; keep one of them." },
        { "use = \"0:9\"\nuse_seconds = [0, 1]\n", "case.toml, line 4: footage.use_seconds and use (line 3) exclude each other; keep one of them." },
        { "[reference]\nimage = \"a.png\"\nuse = \"0:3\"\n", "case.toml, line 5: reference.use and image (line 4) exclude each other; keep one of them." },
        { Rig + "pixel_pitch_um = 2\n", "case.toml, line 6: rig.background_mm_per_px and pixel_pitch_um (line 7) exclude each other; keep one of them." },
        { Rig.Replace("background_mm_per_px = 0.31", "focal_length_mm = 16", StringComparison.Ordinal), "case.toml, line 6: rig.focal_length_mm needs rig.pixel_pitch_um beside it; give that, or background_mm_per_px in place of both." },
        { Rig.Replace("background_mm_per_px = 0.31", "f_number = 2.8", StringComparison.Ordinal), "case.toml, line 3: rig has no scale; give background_mm_per_px, or focal_length_mm and pixel_pitch_um." },
        { Rig.Replace("background_mm_per_px = 0.31", "focal_length_mm = 3000\npixel_pitch_um = 2", StringComparison.Ordinal), "case.toml, line 6: rig.focal_length_mm = 3000 is not less than the distance to the background, 2000 mm; no lens can focus there, so check both." },
        { "[rig]\nlens_to_flow_mm = 1200\nbackground_mm_per_px = 0.31\n", "case.toml, line 3: rig.flow_to_background_mm is missing; give it, or remove the whole section to measure displacements in px only." },
        { Rig + "[flow]\nshape = \"planar\"\n", "case.toml, line 8: flow.shape = \"planar\" needs path_length_mm, the length of the flow along the line of sight." },
        { Rig + "[flow]\npath_length_mm = 12\n", "case.toml, line 8: flow.path_length_mm is for shape = \"planar\"; set that shape, or remove the length." },
        { "[flow]\nshape = \"planar\"\npath_length_mm = 3\n", "case.toml, line 4: flow.shape = \"planar\" needs the distances of [rig], without which only displacements in px are measured; give them, or remove the key." },
        { "[gas]\nambient_density_kg_m3 = 1.2\nambient_temperature_c = 3\n", "case.toml, line 4: gas.ambient_density_kg_m3 and ambient_temperature_c (line 5) exclude each other; keep one of them." },
        { "[displacement]\nspacing_px = 10\nshape = \"affine\"\n", "case.toml, line 5: displacement.shape = \"affine\" needs weighting = \"top-hat\", sub_pixel = \"least-squares\", a window_px of 16 or more that 8 divides and a spacing_px that 4 divides; change what differs, or set shape = \"constant\"." },
        { "[displacement]\nspacing_px = 10\nwindows = \"adaptive\"\n", "case.toml, line 5: displacement.windows = \"adaptive\" needs shape = \"constant\" or \"affine\", weighting = \"top-hat\", sub_pixel = \"least-squares\", a window_px that 16 divides and a spacing_px that 4 divides; change what differs, or set windows = \"fixed\"." },
        { "[displacement]\nwindow_px = 128\n", "case.toml, line 4: displacement.coarse_window_px = 64 is smaller than window_px = 128; the first window must be at least as large as the last." },

        { "[registration]\nreadout_ms = 9.5\nmotion = \"homography\"\n", "case.toml, line 4: registration.readout_ms asks for a motion of each row, which motion = \"homography\" does not allow; write \"shift\" or \"similarity\"." },
        { "[registration]\nreadout_ms = 9.5\nmotion = \"none\"\n", "case.toml, line 4: registration.readout_ms asks for a motion of each row, which motion = \"none\" does not allow; write \"shift\" or \"similarity\"." },
        { "[reference]\nuse_later = \"5:9\"\n", "case.toml, line 4: reference.use_later names further flow-off frames, but reference.use names no first ones; give use." },
        { "[reference]\nuse = \"0:5\"\ndrift = \"report\"\n", "case.toml, line 5: reference.drift says what to do about the drift that later flow-off frames show; give use_later too, or remove it." },
        { "[reference]\nuse = \"0:5\"\nuse_later = [\"5:9\", \"x\"]\n", "case.toml, line 5: reference.use_later = [\"5:9\", \"x\"] is no frame range; give start:stop:step in whole numbers, such as \"0:90\" (frames 0 to 89), \"-30:\" (the last thirty), \"::10\" (every tenth) or \"7\" (one frame), or a list of such texts." },
        { "[registration]\nreadout_ms = \"estimate\"\nmotion = \"none\"\n", "case.toml, line 4: registration.readout_ms asks for a motion of each row, which motion = \"none\" does not allow; write \"shift\" or \"similarity\"." },
        { "[registration]\nreadout_ms = \"guess\"\n", "case.toml, line 4: registration.readout_ms = \"guess\" is not known; give a number from 0 to 1000 ms, or \"estimate\"." },
        { "[registration]\nhighest_vibration_hz = 90\n", "case.toml, line 4: registration.highest_vibration_hz counts only for a rolling shutter; give readout_ms too, or remove it." },
    };

    public static TheoryData<string, string> SyntaxErrors => new()
    {
        { "[footage\nframes = \"f\"\n", "case.toml, line 1, column 9: a closing bracket ] is missing; add it." },
        { "[footage]\nframes \"f\"\n", "case.toml, line 2, column 8: an equals sign is missing; write key = value." },
        { "[footage]\nframes = f*.png\n", "case.toml, line 2, column 10: the value is missing or not readable; write it so: texts stand in \"quotation marks\", numbers use a decimal point, truth is true or false." },
        { "[footage]\nframes = \"f.png\n", "case.toml, line 2, column 16: a text is not closed on its line; add the missing quotation mark." },
        { "[footage]\nvideo = \"C:\\Users\\x.mp4\"\n", "case.toml, line 2, column 14: a backslash in \"double quotes\" starts an escape; write the path with / or in 'single quotes'." },
        { "[footage]\nframes = \"a\"\nframes = \"b\"\n", "case.toml, line 3, column 1: footage.frames is given a second time, first in line 2; keep one of the two." },
        { "[footage]\nframes = \"a\"\n[footage]\nuse = \"1\"\n", "case.toml, line 3, column 1: footage is given a second time, first in line 1; keep one of the two." },
        { "frames = \"a\"\n", "case.toml: no footage is given; write under [footage] frames = \"frames/*.png\" or video = \"clip.mp4\".\ncase.toml, line 1: frames stands above the first section; put it under [footage]." },
    };

    [Theory]
    [MemberData(nameof(Mistakes))]
    public void Parse_OneMistake_SaysWhatWhereAndHowToMendIt(string text, string sentence) =>
        Assert.Equal(sentence, CaseText.Problem(CaseText.Smallest + text));

    [Theory]
    [MemberData(nameof(SyntaxErrors))]
    public void Parse_NotToml_SaysWhereAndHowToMendIt(string text, string sentences) =>
        Assert.Equal(sentences.Split('\n'), CaseText.Problems(text));

    [Fact]
    public void Parse_ManyMistakes_TellsAllInTheOrderOfTheLines()
    {
        const string Text = "[displacement]\nwindow_px = 7\npases = 3\n[rig]\nlens_to_flow_cm = 120\n[nonsense]\nx = 1\n";

        IReadOnlyList<string> problems = CaseText.Problems(Text);

        Assert.Equal(
            ["case.toml: no fo", "case.toml, line 2", "case.toml, line 3", "case.toml, line 4", "case.toml, line 4", "case.toml, line 4", "case.toml, line 5", "case.toml, line 6"],
            problems.Select(problem => problem[..(problem.Contains("line", StringComparison.Ordinal) ? 17 : 16)]));
    }
}
