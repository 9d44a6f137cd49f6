namespace BosFlow.Cli.Scenes;

/// <summary>The scene of the demo: the warm jet of a heat gun in front of a printed board, filmed from a rattling test cart.</summary>
internal static class DemoScene
{
    /// <summary>The recipe as it is written into the demo's folder. All of it is invented.</summary>
    public const string Recipe =
        """
        # The warm jet of a heat gun, blowing upward and a little to the right in front of a printed board,
        # filmed from a camera on a rattling test cart. A synthetic scene: the truth is known exactly.

        [scene]
        width_px = 1280
        height_px = 720
        frames = 26
        flow_off_frames = 8
        frame_rate_hz = 60
        seed = 2607

        [dots]                       # dark dots on a light board
        diameter_px = 3
        number_per_pixel = 0.05
        contrast_from = -0.35
        contrast_to = -0.6
        margin_px = 40
        seed = 71

        [sensor]
        background = 0.85
        noise_percent = 0.8
        full_well_electrons = 10000
        bits = 8

        [shake]
        shift_px = 6
        rotation_deg = 0.06
        scale_percent = 0.03
        highest_frequency_hz = 12

        [flow]
        kind = "jet"
        nozzle_x_px = 600
        nozzle_y_px = 745
        direction_deg = 75
        half_width_mm = 8
        growth = 0.1
        temperature_c = 300

        [rig]
        lens_to_flow_mm = 1000
        flow_to_background_mm = 1000
        focal_length_mm = 35
        pixel_pitch_um = 3.45
        f_number = 11
        lens_to_flow_sigma_mm = 3      # as a tape measure leaves them
        flow_to_background_sigma_mm = 3
        focal_length_sigma_mm = 0.1

        [gas]
        name = "air"
        wavelength_nm = 550
        ambient_pressure_pa = 101325
        ambient_temperature_c = 20
        ambient_pressure_sigma_pa = 100
        ambient_temperature_sigma_c = 0.5

        """;
}
