-- against serial-adder n=4: right
library ieee; use ieee.std_logic_1164.all; use ieee.std_logic_unsigned.all;
entity adder is port (clk, shift, a_in, b_in : in std_logic; sum : out std_logic_vector(3 downto 0); carry : out std_logic); end adder;
architecture v of adder is signal a, b, s : std_logic_vector(3 downto 0) := "0000"; signal t : std_logic_vector(1 downto 0); signal c : std_logic := '0'; begin
  t <= ('0' & a(0)) + b(0) + c;
  process (clk) begin if rising_edge(clk) then if shift = '1' then a <= a_in & a(3 downto 1); b <= b_in & b(3 downto 1); s <= t(0) & s(3 downto 1); c <= t(1); end if; end if; end process;
  sum <= s; carry <= c;
end v;
