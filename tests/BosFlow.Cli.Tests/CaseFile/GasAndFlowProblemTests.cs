namespace BosFlow.Cli.Tests.CaseFile;

/// <summary>Mistakes in what the case file says of gas, flow and uncertainties; the whole sentences are frozen here.</summary>
public sealed class GasAndFlowProblemTests
{
    private const string Rig = "[rig]\nlens_to_flow_mm = 1200\nflow_to_background_mm = 800\nbackground_mm_per_px = 0.31\n";

    // Each text follows the two lines of the smallest case.
    public static TheoryData<string, string> GasMistakes => new()
    {
        { "[gas]\nname = \"heluim\"\n", "case.toml, line 4: gas.name = \"heluim\" is not in the table of gases; did you mean \"helium\"? Name a gas of the table, or give its gladstone_dale_m3_per_kg beside it." },
        { "[gas]\nname = \"phlogiston\"\n", "case.toml, line 4: gas.name = \"phlogiston\" is not in the table of gases; it has air, nitrogen, oxygen, argon, carbon dioxide, helium, water vapour, hydrogen, neon, krypton, xenon, methane, nitric oxide, carbon tetrafluoride, sulphur hexafluoride, exhaust; name one of these, or give its gladstone_dale_m3_per_kg beside it." },
        { "[gas]\nname = \"kiln gas\"\ngladstone_dale_m3_per_kg = 2.3e-4\n", "case.toml, line 4: gas.name = \"kiln gas\" has no known molar mass; give ambient_density_kg_m3, or with ambient_name the gas around it." },
        { "[gas]\nname = \"exhaust\"\n", "case.toml, line 4: gas.name = \"exhaust\" needs equivalence_ratio, from 0 to 1; 0.3 is typical of a small jet engine." },
        { "[gas]\nequivalence_ratio = 0.3\n", "case.toml, line 4: gas.equivalence_ratio is for name = \"exhaust\"; set that name, or remove the ratio." },
        { "[gas]\nname = \"exhaust\"\nequivalence_ratio = 1.4\n", "case.toml, line 5: gas.equivalence_ratio = 1.4 is out of range; give a number from 0 to 1." },
        { "[gas]\nname = \"exhaust\"\nequivalence_ratio = 0.3\nambient_name = \"argon\"\n", "case.toml, line 6: gas.ambient_name = \"argon\" cannot stand beside name = \"exhaust\" (line 4), around which is the air that the fuel was burnt in; remove it." },
        { "[gas]\nname = \"helium\"\nambient_name = \"airr\"\n", "case.toml, line 5: gas.ambient_name = \"airr\" is not in the table of gases; did you mean \"air\"? Name a gas of the table." },
        { "[gas]\nname = \"air\"\ncomposition = {argon = 1.0}\n", "case.toml, line 5: gas.composition and name (line 4) exclude each other; keep one of them." },
        { "[gas]\ncomposition = {nitrgen = 0.8, oxygen = 0.2}\n", "case.toml, line 4: gas.composition = {nitrgen = 0.8, oxygen = 0.2} holds nitrgen, which is not in the table of gases; did you mean nitrogen?" },
        { "[gas]\ncomposition = {nitrogen = 0.8, oxygen = 0.1}\n", "case.toml, line 4: gas.composition = {nitrogen = 0.8, oxygen = 0.1} adds to 0.9; mole fractions must add to 1 within 0.01, so correct them or add the gas that is missing." },
        { "[gas]\ncomposition = {argon = 120.0}\n", "case.toml, line 4: gas.composition = {argon = 120.0} holds argon = 120.0, which is no mole fraction; give a number from 0 to 1." },
        { "[gas]\ncomposition = {water_vapour = 0.5, \"water vapour\" = 0.5}\n", "case.toml, line 4: gas.composition = {water_vapour = 0.5, \"water vapour\" = 0.5} holds water vapour twice; add the two." },
        { "[gas]\ncomposition = \"argon\"\n", "case.toml, line 4: gas.composition = \"argon\" is a text; give gases of the table with mole fractions from 0 to 1 that add to 1 within 0.01, as in {nitrogen = 0.78, oxygen = 0.21, argon = 0.01}." },
        { "[gas.composition]\nargon = 1\n", "case.toml, line 3: there is no section [gas.composition]; composition is a key of [gas], so write composition = ... under that heading." },
        { "[gas]\nname = \"helium\"\nrelative_humidity_percent = 50\n", "case.toml, line 5: gas.relative_humidity_percent is for air, and the gas around the flow is not air; remove it, or set ambient_name = \"air\"." },
        { "[gas]\nrelative_humidity_percent = 50\nambient_density_kg_m3 = 1.2\n", "case.toml, line 4: gas.relative_humidity_percent and ambient_density_kg_m3 (line 5) exclude each other; keep one of them." },
        { "[gas]\nrelative_humidity = 50\n", "case.toml, line 4: gas.relative_humidity is not known; its unit is missing; write relative_humidity_percent, in %." },
        { "[gas]\nrelative_humidity_percent = 50\nambient_temperature_c = 300\n", "case.toml, line 4: [gas]: The relative humidity is understood from -40 to 100 degC, and the ambient temperature is 300 degC; set the humidity to 0." },
        { "[gas]\nwavelength_nm = 1550\n", "case.toml, line 4: [gas]: The wavelength 1550 nm is outside the table for air, 356.2 nm to 912.5 nm; give the effective wavelength of the camera (550 nm for a colour camera) or the Gladstone-Dale coefficient." },
        { "[gas]\nambient_altitude_m = 300\nambient_pressure_pa = 98000\n", "case.toml, line 4: gas.ambient_altitude_m and ambient_pressure_pa (line 5) exclude each other; keep one of them." },
        { "[gas]\nambient_altitude_ft = 1000\n", "case.toml, line 4: gas.ambient_altitude_ft is not known; this is given in m, not in ft; write ambient_altitude_m = 304.8." },
    };

    public static TheoryData<string, string> FlowMistakes => new()
    {
        { "[flow]\nshape = \"axisymmetric\"\n", "case.toml, line 4: flow.shape = \"axisymmetric\" needs the distances of [rig], without which only displacements in px are measured; give them, or remove the key." },
        { "[flow]\nambient_edges = [\"left\"]\n", "case.toml, line 4: flow.ambient_edges needs the distances of [rig], without which only displacements in px are measured; give them, or remove the key." },
        { Rig + "[flow]\nshape = \"axisymetric\"\n", "case.toml, line 8: flow.shape = \"axisymetric\" is not known; did you mean \"axisymmetric\"? Allowed: \"path-integrated\", \"planar\" or \"axisymmetric\"." },
        { Rig + "[flow]\nshape = \"axisymmetric\"\npath_length_mm = 120\n", "case.toml, line 9: flow.path_length_mm is for shape = \"planar\"; the path through an axisymmetric flow follows from its shape, so remove the length." },
        { Rig + "[flow]\naxis = \"find\"\n", "case.toml, line 8: flow.axis is for shape = \"axisymmetric\"; set that shape, or remove the key." },
        { Rig + "[flow]\nshape = \"planar\"\npath_length_mm = 9\naxis_direction_deg = 90\n", "case.toml, line 10: flow.axis_direction_deg is for shape = \"axisymmetric\"; set that shape, or remove the key." },
        { Rig + "[flow]\nshape = \"axisymmetric\"\naxis = [[0, 0], [0, 900]]\naxis_direction_deg = 90\n", "case.toml, line 10: flow.axis_direction_deg is for an axis that is to be found, and axis (line 9) gives it; remove one of them." },
        { Rig + "[flow]\nshape = \"axisymmetric\"\naxis = [[0, 0], [0, 9]]\n", "case.toml, line 9: flow.axis = [[0, 0], [0, 9]] holds two points too close to each other; give \"find\", or two points on the axis at least 10 px apart, [[x1, y1], [x2, y2]] in px." },
        { Rig + "[flow]\nshape = \"axisymmetric\"\naxis = [0, 0, 0, 900]\n", "case.toml, line 9: flow.axis = [0, 0, 0, 900] is not two points; give \"find\", or two points on the axis at least 10 px apart, [[x1, y1], [x2, y2]] in px." },
        { Rig + "[flow]\nshape = \"axisymmetric\"\naxis = \"auto\"\n", "case.toml, line 9: flow.axis = \"auto\" is not known; give \"find\", or two points on the axis at least 10 px apart, [[x1, y1], [x2, y2]] in px." },
        { Rig + "[flow]\nshape = \"axisymmetric\"\naxis = 90\n", "case.toml, line 9: flow.axis = 90 is a whole number; give \"find\", or two points on the axis at least 10 px apart, [[x1, y1], [x2, y2]] in px." },
        { Rig + "[flow]\nambient_edges = [\"lft\"]\n", "case.toml, line 8: flow.ambient_edges = [\"lft\"] holds \"lft\", which is no edge; did you mean \"left\"?" },
        { Rig + "[flow]\nambient_edges = [\"north\"]\n", "case.toml, line 8: flow.ambient_edges = [\"north\"] holds \"north\", which is no edge; give a list of \"left\", \"right\", \"top\" and \"bottom\"." },
        { Rig + "[flow]\nambient_edges = []\n", "case.toml, line 8: flow.ambient_edges = [] is empty; give a list of \"left\", \"right\", \"top\" and \"bottom\", or leave the key out." },
        { Rig + "[flow]\nambient_edges = \"left\"\n", "case.toml, line 8: flow.ambient_edges = \"left\" is a text; give a list of \"left\", \"right\", \"top\" and \"bottom\"." },
        { Rig + "[flow]\nshape = \"axisymmetric\"\ntemperature = \"none\"\npressure_pa = 99000\n", "case.toml, line 10: flow.pressure_pa is for the temperature, and temperature = \"none\" (line 9) asks for none; remove one of them." },
        { Rig + "[flow]\npressure_pa = 99000\n", "case.toml, line 8: flow.pressure_pa is for the temperature, which a path-integrated flow does not give; set shape = \"planar\" or \"axisymmetric\", or remove the pressure." },
    };

    public static TheoryData<string, string> UncertaintyMistakes => new()
    {
        { Rig + "focal_length_sigma_mm = 0.3\n", "case.toml, line 7: rig.focal_length_sigma_mm is the uncertainty of focal_length_mm, which is not given; give that too, or remove the uncertainty." },
        { Rig + "lens_to_flow_sigma_mm = 700\n", "case.toml, line 7: rig.lens_to_flow_sigma_mm = 700 is more than half of lens_to_flow_mm = 1200; a value so uncertain gives no result, so check both." },
        { Rig + "lens_to_flow_sigma_mm = -1\n", "case.toml, line 7: rig.lens_to_flow_sigma_mm = -1 is out of range; give a number from 0 to 1000000 mm." },
        { Rig + "lens_to_flow_sigma_cm = 1\n", "case.toml, line 7: rig.lens_to_flow_sigma_cm is not known; this is given in mm, not in cm; write lens_to_flow_sigma_mm = 10." },
        { Rig + "background_scale_sigma_percent = 80\n", "case.toml, line 7: rig.background_scale_sigma_percent = 80 is out of range; give a number from 0 to 50 %." },
        { Rig.Replace("background_mm_per_px = 0.31", "focal_length_mm = 16\npixel_pitch_um = 2\nbackground_scale_sigma_percent = 1", StringComparison.Ordinal), "case.toml, line 8: rig.background_scale_sigma_percent is the uncertainty of background_mm_per_px, which is not given; give that too, or remove the uncertainty." },
        { "[gas]\nambient_pressure_sigma_pa = 200\n", "case.toml, line 4: gas.ambient_pressure_sigma_pa is the uncertainty of ambient_pressure_pa, which is not given; give that too, or remove the uncertainty." },
        { "[gas]\nambient_temperature_sigma_c = 1\n", "case.toml, line 4: gas.ambient_temperature_sigma_c is the uncertainty of ambient_temperature_c, which is not given; give that too, or remove the uncertainty." },
        { "[gas]\nambient_density_sigma_kg_m3 = 0.01\n", "case.toml, line 4: gas.ambient_density_sigma_kg_m3 is the uncertainty of ambient_density_kg_m3, which is not given; give that too, or remove the uncertainty." },
        { "[gas]\nambient_temperature_c = 20\nambient_temperature_sigma_k = 0.5\n", "case.toml, line 5: gas.ambient_temperature_sigma_k is not known; this is given in degC, not in K; write ambient_temperature_sigma_c = 0.5." },
        { Rig + "[flow]\npath_length_sigma_mm = 2\n", "case.toml, line 8: flow.path_length_sigma_mm is the uncertainty of path_length_mm, which is not given; give that too, or remove the uncertainty." },
        { Rig + "[flow]\nshape = \"axisymmetric\"\npressure_sigma_pa = 2\n", "case.toml, line 9: flow.pressure_sigma_pa is the uncertainty of pressure_pa, which is not given; give that too, or remove the uncertainty." },
    };

    [Theory]
    [MemberData(nameof(GasMistakes))]
    public void Parse_OneMistakeOfTheGas_SaysWhatWhereAndHowToMendIt(string text, string sentence) =>
        Assert.Equal(sentence, CaseText.Problem(CaseText.Smallest + text));

    [Theory]
    [MemberData(nameof(FlowMistakes))]
    public void Parse_OneMistakeOfTheFlow_SaysWhatWhereAndHowToMendIt(string text, string sentence) =>
        Assert.Equal(sentence, CaseText.Problem(CaseText.Smallest + text));

    [Theory]
    [MemberData(nameof(UncertaintyMistakes))]
    public void Parse_OneMistakeOfAnUncertainty_SaysWhatWhereAndHowToMendIt(string text, string sentence) =>
        Assert.Equal(sentence, CaseText.Problem(CaseText.Smallest + text));
}
